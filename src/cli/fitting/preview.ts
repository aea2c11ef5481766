import { type MappedFile, type Mapping, previewOf } from "../../ingest/mapping/index.js";
import { cut } from "./cut.js";

const rowsShown = 3;
const widest = 24;

/** The first rows as they will be read: our columns down, rows across; a `?` before what will be asked about. */
export function previewLines(read: Pick<MappedFile, "rows" | "oneRow">, mapping: Mapping): readonly string[] {
  const { names, rows } = previewOf(read, { mapping, count: rowsShown });
  const columns = rows.map(({ row, cells }) => [
    `row ${row}`,
    ...cells.map(({ text, isAsked }) => cut(isAsked ? `? ${text}` : text, widest)),
  ]);
  const widthOf = (cells: readonly string[]) => Math.max(...cells.map((cell) => cell.length));
  const head = ["", ...names];
  return head.map((name, line) => {
    const cells = columns.map((column) => column[line]!.padEnd(widthOf(column)));
    return `  ${[name.padEnd(widthOf(head)), ...cells].join("  ")}`.trimEnd();
  });
}
