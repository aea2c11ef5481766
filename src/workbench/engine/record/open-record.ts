import { type Grid, readFileAsGrid } from "../../../ingest/index.js";
import { comparedName } from "../../../ingest/text/header.js";
import { plainStudyText } from "../../../run/plain-study.js";
import { StopError, tables, visibleText } from "../../../schema/index.js";
import { isLinkedTable, type LinkedTableName, linkedTableNames } from "../../../schema/table-names.js";
import type { Table } from "../../../schema/tables.js";
import { tableOfNames } from "../bring.js";
import type { NamedBytes } from "../named-bytes.js";
import { studyName } from "../study-draft.js";
import { type ClinicRecord, emptyRecord, type RecordRow } from "./record.js";
import { planFor, RecordError } from "./record-file.js";

/** A sheet with the table that it holds. */
interface SheetOfRecord {
  readonly table: LinkedTableName;
  /** File and sheet, for messages. */
  readonly place: string;
  readonly grid: Grid;
}

/**
 * Opens a record to go on with: a workbook with a sheet for each table, or the linked tables as files of their own. Every row
 * and every column is taken as it stands, those too that the tables do not know.
 *
 * @throws RecordError where that would lose anything; StopError where a file cannot be read
 */
export async function openRecord(files: readonly NamedBytes[]): Promise<ClinicRecord> {
  const sheets = (await Promise.all(files.map(sheetsOf))).flat();
  for (const { table, place } of sheets) {
    const other = sheets.find((one) => one.table === table && one.place !== place);
    if (other !== undefined)
      throw new RecordError(
        `${place}, ${other.place}: both hold ${table}.\n  Bring the rows together in one of them.`,
      );
  }
  if (!sheets.some(({ table }) => table === "injuries"))
    throw new RecordError(
      `${files.map(({ name }) => name).join(", ")}: no table of injuries was found.\n  A record has a sheet or a file "injuries" with the columns of the toolkit. A spreadsheet in your own columns is opened under "Bring data".`,
    );
  return sheets.reduce(withSheet, emptyRecord);
}

/** Files as they are brought; a record alone comes with a study that names its sheets. */
export async function withStudyOfRecord(files: readonly NamedBytes[]): Promise<readonly NamedBytes[]> {
  const [file] = files;
  if (file === undefined || files.length > 1) return files;
  const { sheets = [] } = await readFileAsGrid({ file: file.name, bytes: file.bytes });
  const held = linkedTableNames.filter((table) => sheets.includes(table));
  if (!held.includes("injuries") || held.length < 2) return files;
  const study = new TextEncoder().encode(plainStudyText(planFor(held, file.name)));
  return [{ name: studyName, bytes: study }, file];
}

async function sheetsOf({ name: file, bytes }: NamedBytes): Promise<readonly SheetOfRecord[]> {
  const first = await readFileAsGrid({ file, bytes });
  const grids: Grid[] = [];
  for (const sheet of first.sheets ?? [null]) {
    const { grid, queries } = sheet === null ? first : await readFileAsGrid({ file, bytes }, { sheet });
    const stops = queries.filter(({ severity, code }) => severity === "stop" && code !== "sheet-empty");
    if (stops.length > 0) throw new StopError(stops);
    if (grid !== null) grids.push(grid);
  }
  return grids.flatMap((grid) => sheetOfRecord(grid));
}

function sheetOfRecord(grid: Grid): readonly SheetOfRecord[] {
  const place = grid.sheet === null ? grid.file : `${grid.file}, sheet "${visibleText(grid.sheet)}"`;
  const table = tableOfNames(namesIn(grid));
  if (table !== null && isLinkedTable(table)) return [{ table, place, grid }];
  if (grid.rows.length < 2 || isListOfWords(grid)) return [];
  throw new RecordError(
    table === "single_sheet"
      ? `${place}: this is the form with one row per injury. It has no room for several visits and treatments, which a record keeps.\n  Open it under "Bring data", or begin a record and write its injuries into it.`
      : `${place}: these columns are not those of a table of the record.\n  Open it under "Bring data", or take this sheet out of the file first.`,
  );
}

/** The sheet of words to choose from that stands in every workbook of the toolkit. */
const isListOfWords = ({ rows }: Grid): boolean => {
  const [head, ...below] = rows;
  return head!.cells.every((name, column) => {
    const terms = Object.values(tables as unknown as Readonly<Record<string, Table>>)
      .flatMap(({ fields }) => fields)
      .filter((field) => field.name === name)
      .flatMap((field) => field.terms ?? []);
    return below.every(({ cells }) => (cells[column] ?? "") === "" || terms.includes(cells[column]!));
  });
};

const namesIn = ({ rows }: Grid): readonly string[] =>
  (rows[0]?.cells ?? []).map((name) => comparedName(name));

function withSheet(record: ClinicRecord, { table, place, grid }: SheetOfRecord): ClinicRecord {
  const [head, ...below] = grid.rows;
  const known = new Map((tables[table] as Table).fields.map(({ name }) => [comparedName(name), name]));
  const columns = head!.cells.map((name) => known.get(comparedName(name)) ?? name.trim());
  askAboutColumns(columns, { place });
  if (grid.merged.length > 0)
    throw new RecordError(
      `${place}: some cells are joined into one, so that it cannot be known for which rows they hold.\n  Undo the joining in the spreadsheet, and fill in every row.`,
    );
  const rows = below.map(({ row, cells }, i): RecordRow => {
    const beyond = cells.findIndex((text, column) => text.trim() !== "" && (columns[column] ?? "") === "");
    if (beyond !== -1)
      throw new RecordError(
        `${place}, row ${row}: "${visibleText(cells[beyond]!)}" stands in a column without a name.\n  Give the column a name, or take the cell out.`,
      );
    const filled = columns.flatMap((name, column) =>
      (cells[column] ?? "") === "" ? [] : [[name, cells[column]!]],
    );
    return { key: record.nextKey + i, cells: Object.fromEntries(filled) };
  });
  const others = columns.filter(
    (name) => name !== "" && !(tables[table] as Table).fields.some((field) => field.name === name),
  );
  return {
    rows: { ...record.rows, [table]: rows },
    otherColumns: { ...record.otherColumns, [table]: others },
    nextKey: record.nextKey + rows.length,
  };
}

/** Two columns of one name could not be told apart, and a name that reaches beyond the cells is none. */
function askAboutColumns(columns: readonly string[], { place }: { readonly place: string }): void {
  const twice = columns.find((name, i) => name !== "" && columns.indexOf(name) !== i);
  if (twice !== undefined)
    throw new RecordError(
      `${place}: two columns are called "${visibleText(twice)}".\n  Give one of them another name, or take it out.`,
    );
  if (columns.includes("__proto__"))
    throw new RecordError(`${place}: a column is called "__proto__".\n  Give it another name.`);
}
