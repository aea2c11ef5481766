import { foundText } from "../../../schema/ask.js";
import type { CellRow } from "../../../schema/cells.js";
import { cellCodes, type DataQuery, mappingCodes, type QueryCode } from "../../../schema/data-query.js";
import type { GridRow } from "../../grid/grid.js";
import type { FileWords } from "../../text/rows-of-file.js";
import { columnInRow, type Groups, groupsRead } from "../injuries-in-row.js";
import { cleanCell } from "../look-alikes.js";
import type { Mapping } from "../mapping.js";
import { mappedReader } from "./cell-reader.js";
import { columnsRead, type MappedColumn } from "./mapped-column.js";

interface Translated {
  readonly file: string;
  readonly records: readonly GridRow[];
  readonly columns: readonly MappedColumn[];
  readonly mapping: Mapping;
}

const aboutCells: ReadonlySet<QueryCode> = new Set<QueryCode>(cellCodes);
/** Queries that speak of the file already. */
const aboutFile: ReadonlySet<QueryCode> = new Set<QueryCode>(mappingCodes);

/** The words of a mapped file, for questions about its rows and for the answers. */
export function fileWords(
  rows: readonly CellRow[],
  { file, records, columns, mapping }: Translated,
): FileWords {
  const recordOf = new Map(records.map((record) => [record.row, record]));
  const injuryOf = new Map(rows.map(({ row, cells }) => [row, cells.injury_date ?? ""]));
  const columnOf = new Map(columns.map((column) => [column.field.name, column]));
  const groups = groupsRead(mapping);
  return {
    asWritten: (query) => {
      const column = query.file === file && query.column !== null ? columnOf.get(query.column) : undefined;
      if (column === undefined || aboutFile.has(query.code)) return query;
      const record =
        query.row === null ? undefined : (recordOf.get(query.row) ?? recordOf.get(Math.floor(query.row)));
      return record === undefined
        ? aboutColumn(query, column)
        : aboutCell(query, { column, columns, record, groups });
    },
    inOurText: ({ column, row, text }) => {
      const field = columnOf.get(column)?.field;
      const rule = mapping.columns[column];
      if (field === undefined || rule === undefined) return text;
      return mappedReader(field, { rule, mapping })(cleanCell(text).text, injuryOf.get(row) ?? "").text;
    },
  };
}

function aboutColumn(query: DataQuery, { sources }: MappedColumn): DataQuery {
  const names = sources.map(({ name }) => name).join(" / ");
  return names === "" ? query : { ...query, column: foundText(names) };
}

/** Why a cell cannot be read is known better where it was read first. */
function aboutCell(
  query: DataQuery,
  {
    column,
    columns,
    record,
    groups,
  }: {
    readonly column: MappedColumn;
    readonly columns: readonly MappedColumn[];
    readonly record: GridRow;
    readonly groups: Groups;
  },
): DataQuery {
  const cell = columnsRead(record.cells, columns).find(({ field }) => field === column.field)!.cell;
  const problem = aboutCells.has(query.code) ? cell.problem : null;
  return {
    ...query,
    ...(problem === null ? {} : { code: problem.problem, facts: { ...query.facts, ...problem.facts } }),
    column: foundText(columnInRow(groups, { name: cell.column, row: record.row })),
    found: query.found === null ? null : foundText(cell.found),
  };
}
