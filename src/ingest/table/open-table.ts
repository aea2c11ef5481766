import { foundText } from "../../schema/ask.js";
import type { Severity } from "../../schema/data-query.js";
import type { Table } from "../../schema/tables.js";
import { byKey } from "../rules/link-rule.js";
import type { AskAboutFile } from "../text/ask-about-file.js";
import { delimiterLine } from "../text/delimiter-line.js";
import {
  type Header,
  type HeaderFault,
  headerFurtherDown,
  holdsFirstRow,
  matchHeader,
  readHeader,
} from "../text/header.js";

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
/** The blank lines at the beginning of a text. */
const blankAbove = (text: string): string => blankLines.exec(text.slice(0, 10_000))?.[0] ?? "";

/** Whether the beginning of a file has the whole header in it. */
export function holdsHeader(beginning: string): boolean {
  const text = beginning.replace(delimiterLine, "");
  return holdsFirstRow(text.slice(blankAbove(text).length));
}

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
  const blank = blankAbove(text);
  const header = readHeader(text.slice(blank.length), table);
  const columns = columnsOf(header, { text, table, ask });
  return columns === null ? null : { header, columns, headerRow: blank.split(/\r\n?|\n/).length };
}

function columnsOf(
  header: Header,
  { text, table, ask }: { text: string; table: Table; ask: AskAboutFile },
): Columns | null {
  if (header.recognised === 0) {
    const headerRow = headerFurtherDown(text, table);
    if (headerRow !== null) {
      ask({ code: "header-not-first", severity: "stop", row: 1, facts: { header_row: headerRow } });
      return null;
    }
    askAboutForeign(header, { table, ask });
    return null;
  }
  const { columns, faults } = matchHeader(header.names, table);
  const severities = counted(faults).map((fault) => askAboutHeader(fault, { table, ask }));
  return severities.includes("stop") ? null : columns;
}

/** So many alike faults of a header are asked about one by one; the last of them says how many more there are. */
const askedOneByOne = 200;

type CountedFault = HeaderFault & { readonly more?: number };

function counted(faults: readonly HeaderFault[]): readonly CountedFault[] {
  const alike = byKey(faults, (fault) =>
    "near" in fault && fault.near !== null ? `${fault.code}, near` : fault.code,
  );
  const last = new Map<HeaderFault, number>();
  const left = new Set<HeaderFault>();
  for (const group of alike.values()) {
    const more = group.slice(askedOneByOne);
    if (more.length > 0) last.set(group[askedOneByOne - 1]!, more.length);
    for (const fault of more) left.add(fault);
  }
  return faults
    .filter((fault) => !left.has(fault))
    .map((fault) => {
      const more = last.get(fault);
      return more === undefined ? fault : { ...fault, more };
    });
}

/** Of a first line that shares no name with the table nothing is repeated: it may be a line of a secret file. */
function askAboutForeign({ names }: Header, { table, ask }: { table: Table; ask: AskAboutFile }): void {
  const columns = table.fields
    .slice(0, 3)
    .map(({ name }) => name)
    .join(", ");
  if (names.length <= 1) ask({ code: "wrong-delimiter", severity: "stop", row: 1, facts: { columns } });
  else {
    const facts = { columns, table: table.name, names: names.length };
    ask({ code: "header-foreign", severity: "stop", row: 1, facts });
  }
}

function askAboutHeader(fault: CountedFault, { table, ask }: { table: Table; ask: AskAboutFile }): Severity {
  const { code, column } = fault;
  const severity = code === "column-unknown" ? "look-at" : "stop";
  const near = "near" in fault && fault.near !== null ? { near: foundText(fault.near) } : {};
  const facts = {
    ...("place" in fault ? { place: fault.place } : {}),
    ...(fault.more === undefined ? {} : { more: fault.more }),
  };
  ask({
    code,
    severity,
    column: column.trim() === "" ? null : column,
    found: column,
    facts: { table: table.name, ...facts, ...near },
  });
  return severity;
}
