import { foundText } from "../schema/ask.js";
import type { Severity } from "../schema/data-query.js";
import type { Table } from "../schema/tables.js";
import type { AskAboutFile } from "./ask-about-file.js";
import { type Header, type HeaderFault, headerFurtherDown, matchHeader, readHeader } from "./header.js";

/** Where the columns of a table stand in a row; those that the file lacks are left out. */
export type Columns = readonly { readonly name: string; readonly place: number }[];

/** What the beginning of a file says about the rest. */
export interface OpenedTable {
  readonly header: Header;
  readonly columns: Columns;
  /** Row of the header as the spreadsheet shows it. */
  readonly headerRow: number;
}

const blankLines = /^(?:[ \t,;|]*(?:\r\n?|\n))*/;

/**
 * Finds the header of a table in the beginning of its text.
 *
 * @param text the beginning of the file, without the line that tells the delimiter
 * @returns null where the table cannot be read; the reasons have been asked
 */
export function openTable(
  text: string,
  { table, ask }: { readonly table: Table; readonly ask: AskAboutFile },
): OpenedTable | null {
  const blank = blankLines.exec(text.slice(0, 10_000))?.[0] ?? "";
  const header = readHeader(text.slice(blank.length), table);
  const columns = columnsOf(header, { text, table, ask });
  return columns === null ? null : { header, columns, headerRow: blank.split(/\r\n?|\n/).length };
}

function columnsOf(
  header: Header,
  { text, table, ask }: { text: string; table: Table; ask: AskAboutFile },
): Columns | null {
  if (header.known === 0) {
    const headerRow = headerFurtherDown(text, table);
    if (headerRow !== null) {
      ask({ code: "header-not-first", severity: "stop", row: 1, facts: { header_row: headerRow } });
      return null;
    }
    if (header.names.length <= 1) {
      const columns = table.fields.slice(0, 3).map(({ name }) => name);
      ask({
        code: "wrong-delimiter",
        severity: "stop",
        row: 1,
        found: header.names.join(),
        facts: { columns: columns.join(", ") },
      });
      return null;
    }
  }
  const { columns, faults } = matchHeader(header.names, table);
  const severities = faults.map((fault) => askAboutHeader(fault, { table, ask }));
  return severities.includes("stop") ? null : columns;
}

function askAboutHeader(fault: HeaderFault, { table, ask }: { table: Table; ask: AskAboutFile }): Severity {
  const { code, column } = fault;
  const severity = code === "column-unknown" ? "look-at" : "stop";
  const near = "near" in fault && fault.near !== null ? { near: foundText(fault.near) } : {};
  const facts = "place" in fault ? { place: fault.place } : {};
  ask({
    code,
    severity,
    column: column.trim() === "" ? null : column,
    found: column,
    facts: { table: table.name, ...facts, ...near },
  });
  return severity;
}
