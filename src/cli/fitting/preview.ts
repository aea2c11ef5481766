import { foldVisits } from "../../ingest/index.js";
import type { MappedFile, Mapping } from "../../ingest/mapping/index.js";
import { oneLine, type Table, tables, typeRows } from "../../schema/index.js";
import { cut } from "./cut.js";

const rowsShown = 3;
const widest = 24;

/** The first rows as they will be read: our columns down, rows across; a `?` before what will be asked about. */
export function previewLines(
  { rows, oneRow }: Pick<MappedFile, "rows" | "oneRow">,
  mapping: Mapping,
): readonly string[] {
  const records = oneRow === "visit" ? foldVisits(rows, "per_site").map(({ injury }) => injury) : rows;
  const shown = records.slice(0, rowsShown);
  const { queries } = typeRows(shown, tables[mapping.table] as Table);
  const asked = new Set(queries.map(({ row, column }) => `${row} ${column}`));
  const names = tables[mapping.table].fields
    .map(({ name }) => name)
    .filter((name) =>
      shown.some(({ cells }) => (cells[name] ?? "") !== "" || mapping.columns[name] !== undefined),
    );
  const columns = shown.map(({ row, cells }) => [
    `row ${row}`,
    ...names.map((name) => {
      const text = oneLine((cells[name] ?? "").replaceAll(/\s+/g, " "));
      return cut(asked.has(`${row} ${name}`) ? `? ${text}` : text, widest);
    }),
  ]);
  const widthOf = (cells: readonly string[]) => Math.max(...cells.map((cell) => cell.length));
  const head = ["", ...names];
  return head.map((name, line) => {
    const cells = columns.map((column) => column[line]!.padEnd(widthOf(column)));
    return `  ${[name.padEnd(widthOf(head)), ...cells].join("  ")}`.trimEnd();
  });
}
