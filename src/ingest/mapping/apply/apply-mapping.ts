import type { ColumnNotUsed } from "../../../schema/accounting.js";
import { foundText } from "../../../schema/ask.js";
import type { CellRow } from "../../../schema/cells.js";
import { queryList } from "../../../schema/query-list.js";
import type { Grid, GridRow } from "../../grid/grid.js";
import type { LeftOutRow } from "../../grid/shape/left-out.js";
import { mentionJoined } from "../../grid/shape/mention-joined.js";
import { type ShapedSheet, shapeSheet } from "../../grid/shape/shape-sheet.js";
import { type AskMapping, askerAboutFile } from "../../text/ask-about-file.js";
import type { FileWords, RowsOfFile } from "../../text/rows-of-file.js";
import {
  columnInRow,
  type Groups,
  groupColumnsGone,
  groupsRead,
  numbered,
  unfoldGroups,
} from "../injuries-in-row.js";
import { type Mapping, sourcesOf } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { tableOf } from "../table-of.js";
import { type InParts, readInParts } from "./cells-in-parts.js";
import { askAboutDrift } from "./drift.js";
import { fileWords } from "./file-words-of.js";
import { columnsRead, type MappedColumn, mappedColumn, type Source } from "./mapped-column.js";

/** A row of the file that is no record, and why. */
export type RowLeftOut = Pick<LeftOutRow, "row"> & { readonly kind: LeftOutRow["kind"] | "by the mapping" };

/** The rows of a mapped file in our columns and our text. */
export interface MappedFile extends RowsOfFile {
  /** Rows that are no records; with those read, every filled row of the file. */
  readonly leftOut: readonly RowLeftOut[];
  readonly words: FileWords;
}

/**
 * Reads a grid by a mapping: cells in our columns and our canonical text, as if the file had been written so.
 *
 * Every row of the grid is read or listed as left out. A cell that the mapping cannot read stays as it is, so that
 * typing asks about it. What has changed since the file was mapped is asked; where a change would make the rows mean
 * something else (a column gone, another unit, another order of dates) it stops the run.
 */
export function applyMapping(grid: Grid, mapping: Mapping): MappedFile {
  const queries = queryList();
  const ask = askerAboutFile(grid.file, queries);
  const written = shapeSheet(
    grid,
    mapping.header_rows === undefined ? {} : { headerRows: mapping.header_rows },
  );
  if (written === null) {
    ask({ code: "mapping-header-not-found", severity: "stop" });
    return { ...nothingRead, queries: queries.all() };
  }
  const groups = groupsRead(mapping);
  for (const name of groupColumnsGone(written, groups)) {
    const facts = { target: "several injuries in a row" };
    ask({ code: "mapping-column-gone", severity: "stop", column: name, found: name, facts });
  }
  const sheet = unfoldGroups(written, groups);
  const columns = columnsOf(sheet, mapping);
  askAboutDrift(sheet, { mapping, columns, ask });
  const { records, leftOut } = withoutLeftOut(sheet, mapping);
  askAboutLeftOut(leftOut, { grid, sheet, ask });
  mentionJoined(sheet.joined, ask);
  if (records.length === 0) ask({ code: "file-header-only", severity: "stop" });
  const rows = readRecords(records, { file: grid.file, mapping, columns, ask, groups });
  const found = queries.all();
  if (found.some(({ severity }) => severity === "stop")) return { ...nothingRead, leftOut, queries: found };
  return {
    read: rows.length,
    rows,
    setAside: [],
    queries: found,
    leftOut,
    columnsNotUsed: columnsNotUsed(written, { mapping, groups, leftOut }),
    ...(rows.every(({ row }) => Number.isInteger(row))
      ? {}
      : { unfoldedFrom: new Set(rows.map(({ row }) => Math.floor(row))).size }),
    ...(mapping.one_row === "visit" ? { oneRow: "visit" as const } : {}),
    words: fileWords(rows, { records, file: grid.file, columns, mapping }),
  };
}

const nothingRead: MappedFile = {
  read: 0,
  rows: [],
  setAside: [],
  queries: [],
  leftOut: [],
  words: { asWritten: (query) => query, inOurText: ({ text }) => text },
};

/** The columns that no rule reads, with how many of their cells are filled in the rows that are records. */
function columnsNotUsed(
  { columns, records }: ShapedSheet,
  {
    mapping,
    groups,
    leftOut,
  }: { readonly mapping: Mapping; readonly groups: Groups; readonly leftOut: readonly RowLeftOut[] },
): readonly ColumnNotUsed[] {
  const read = new Set(
    [...Object.values(mapping.columns).flatMap(sourcesOf), ...groups.flat()].map(comparedText),
  );
  const out = new Set(leftOut.map(({ row }) => row));
  return columns
    .filter(({ name }) => !read.has(comparedText(name)))
    .map(({ name, place }) => ({
      column: name,
      filled: records.filter(({ row, cells }) => !out.has(row) && (cells[place] ?? "").trim() !== "").length,
    }));
}

/** The columns of ours that a mapping fills, in the order of the table. */
export function columnsOf(sheet: Pick<ShapedSheet, "columns">, mapping: Mapping): readonly MappedColumn[] {
  const places = columnsInFile(sheet, mapping);
  const { fields } = tableOf(mapping);
  return fields.flatMap((field) => {
    const rule = mapping.columns[field.name];
    return rule === undefined ? [] : [mappedColumn(field, { rule, mapping, places })];
  });
}

/** Also leaves out the rows that begin as the mapping says. */
function withoutLeftOut(
  { records, leftOut }: ShapedSheet,
  { leave_out_rows }: Mapping,
): { readonly records: readonly GridRow[]; readonly leftOut: readonly RowLeftOut[] } {
  const beginnings = leave_out_rows.map(comparedText);
  const isLeftOut = ({ cells }: GridRow): boolean => {
    const first = comparedText(cells.find((cell) => cell.trim() !== "") ?? "");
    return beginnings.some((beginning) => first.startsWith(beginning));
  };
  const more = records.filter(isLeftOut).map(({ row }): RowLeftOut => ({ row, kind: "by the mapping" }));
  return {
    records: more.length === 0 ? records : records.filter((record) => !isLeftOut(record)),
    leftOut: [...leftOut, ...more].sort((one, other) => one.row - other.row),
  };
}

/** The header itself is no news. */
function askAboutLeftOut(
  leftOut: readonly RowLeftOut[],
  { grid, sheet, ask }: { readonly grid: Grid; readonly sheet: ShapedSheet; readonly ask: AskMapping },
): void {
  const rows = new Map(grid.rows.map((row) => [row.row, row]));
  for (const { row, kind } of leftOut) {
    if (sheet.headerRows.includes(row)) continue;
    const found = rows.get(row)?.cells.find((cell) => cell.trim() !== "") ?? "";
    ask({ code: "row-left-out", severity: "look-at", row, found: found.trim(), facts: { kind } });
  }
}

/** Every record as cells of ours; what a cell needed to be read is asked about, news of a column once. */
function readRecords(
  records: readonly GridRow[],
  {
    file,
    mapping,
    columns,
    ask,
    groups,
  }: {
    readonly file: string;
    readonly mapping: Mapping;
    readonly columns: readonly MappedColumn[];
    readonly ask: AskMapping;
    readonly groups: Groups;
  },
): readonly CellRow[] {
  const mentioned = new Set<string>();
  const isFirst = (key: string): boolean => !mentioned.has(key) && mentioned.add(key) !== undefined;
  return records.flatMap(({ row, cells: written }) => {
    const cells: Record<string, string> = {};
    let second: InParts["second"];
    const read = columnsRead(written, columns);
    for (const { field, cell } of read) cells[field.name] = cell.text;
    for (const one of read) {
      const { field, cell } = one;
      const { found } = cell;
      const column = columnInRow(groups, { name: cell.column, row });
      const at = { row, column, found };
      if (cell.repairs.length > 0 && isFirst(`${row}\n${column}`)) {
        const facts = { what: cell.repairs.join(", ") };
        ask({ ...at, code: "cell-repaired", severity: "look-at", facts });
      }
      if (cell.differs !== null) {
        const facts = { other_column: cell.differs.column, other: foundText(cell.differs.found) };
        ask({ ...at, code: "mapping-sources-differ", severity: "look-at", facts });
      }
      const parts = readInParts(one, { others: cells, mapping });
      if (parts !== null) {
        Object.assign(cells, parts.cells);
        second = parts.second;
        ask({ ...at, code: "cell-in-parts", severity: "look-at", facts: { what: parts.what } });
      } else if (cell.newWord !== null && isFirst(`${field.name}\n${comparedText(found)}`)) {
        const facts = { target: field.name, read_as: cell.newWord === "not" ? "" : cell.text };
        ask({ ...at, code: "mapping-value-new", severity: "look-at", facts });
      }
    }
    if (second === undefined) return [{ file, row, cells }];
    return [cells, { ...cells, ...second }].map((own, i) => ({ file, row: numbered(row, i), cells: own }));
  });
}

/** Where the columns that a mapping names stand in a file, by the name that the mapping uses. */
function columnsInFile(
  { columns }: Pick<ShapedSheet, "columns">,
  mapping: Mapping,
): ReadonlyMap<string, Source> {
  const exact = new Map(columns.map((column) => [column.name, column]));
  const compared = new Map([...columns].reverse().map((column) => [comparedText(column.name), column]));
  const named = new Set(Object.values(mapping.columns).flatMap(sourcesOf));
  return new Map(
    [...named].flatMap((name): [string, Source][] => {
      const column = exact.get(name) ?? compared.get(comparedText(name));
      return column === undefined ? [] : [[name, { name: column.name, place: column.place }]];
    }),
  );
}
