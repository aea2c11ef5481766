import Papa from "papaparse";
import { readFileAsGrid, shapeSheet } from "../../src/ingest/grid/index.js";
import {
  type CohortSource,
  openSource,
  readCohort,
  readCohortForSite,
  readTable,
  type SourceFile,
  StopError,
} from "../../src/ingest/index.js";
import { streamTable } from "../../src/ingest/stream/index.js";
import { queryText, type Table, tables } from "../../src/schema/index.js";
import { readSecond } from "../second-csv-reader.js";
import { soundText } from "./valid-files.js";

const options = { closedOn: "2025-01-01", thresholdMm: 2 } as const;

/** What became of a file; every other outcome is a fault and is thrown. */
export type Verdict = "read" | "refused";

/**
 * Sends a file through every door of ingest and holds what must hold for any bytes: refusals come as StopError with
 * words, every row is accounted for, reading whole and as a stream agree, what is exported starts no formula, and no
 * object of the language has gained a member.
 *
 * @param options isForSite: also name every doubt and write the list for the site
 * @throws Error that says what did not hold
 */
export async function judge(
  source: SourceFile,
  { isForSite }: { readonly isForSite: boolean },
): Promise<Verdict> {
  await judgeAsGrid(source);
  judgeByOtherReader(source);
  const verdict = await judgeAsCohort(source, isForSite);
  await judgeAsStream(source);
  const gained = [...Object.keys(Object.prototype), ...Object.keys(Array.prototype)];
  if (gained.length > 0) throw new Error(`a prototype gained ${gained.join(", ")}`);
  return verdict;
}

async function judgeAsGrid({ file, bytes }: SourceFile): Promise<void> {
  const { grid, queries } = await readFileAsGrid({ file, bytes });
  for (const query of queries) queryText(query);
  if (grid === null) {
    if (!queries.some(({ severity }) => severity === "stop")) throw new Error("no grid and no reason");
    return;
  }
  const shape = shapeSheet(grid);
  if (shape === null) return;
  const sorted = [...shape.records, ...shape.leftOut].map(({ row }) => row);
  if (new Set(sorted).size !== sorted.length) throw new Error("a row of the sheet is in two places");
  if (sorted.length !== grid.rows.length)
    throw new Error(`${grid.rows.length} rows in the sheet, ${sorted.length} told of`);
}

/** Letter by letter takes long. */
const longestForOther = 300_000;

/** Delimited text of the usual delimiter has the rows that a second reader finds, or is refused. */
function judgeByOtherReader({ table, file, bytes }: SourceFile): void {
  if (bytes.length > longestForOther || bytes.some((byte) => byte === 0 || byte > 127)) return;
  const text = new TextDecoder().decode(bytes);
  const header = soundText(table).split("\n")[0]!;
  if (!text.startsWith(header) || !/^(?:$|[,\r\n])/.test(text.slice(header.length))) return;
  const { read, queries } = readTable({ file, bytes }, tables[table] as Table, { keep: "every" });
  const isRefused = queries.some(({ severity }) => severity === "stop");
  const other = readSecond(text, ",");
  if ("brokenInRow" in other) {
    if (!isRefused)
      throw new Error(`not refused, though a second reader finds row ${other.brokenInRow} broken`);
    return;
  }
  const rows = other.rows.slice(1).filter((cells) => cells.some((cell) => cell.trim() !== "")).length;
  if (!isRefused && read !== rows) throw new Error(`${read} rows read, ${rows} by a second reader`);
}

async function judgeAsCohort(source: SourceFile, isForSite: boolean): Promise<Verdict> {
  const opened: CohortSource[] = [await openSource(source, { keep: "every" })];
  if (source.table !== "single_sheet" && source.table !== "injuries") {
    const bytes = new TextEncoder().encode(soundText("injuries"));
    opened.push({ table: "injuries", file: "injuries.csv", bytes });
  }
  try {
    const forSite = isForSite ? readCohortForSite(opened, options) : null;
    const { accounts, queries } = forSite ?? readCohort(opened, options);
    for (const { read, used, setAside, file } of accounts) {
      if (read !== used + setAside.length)
        throw new Error(`${file}: ${read} is not ${used} + ${setAside.length}`);
    }
    for (const query of queries) queryText(query);
    if (forSite !== null) judgeCsv(forSite.csv);
    return "read";
  } catch (error) {
    if (!(error instanceof StopError)) throw error;
    if (error.message.trim() === "") throw new Error("refused without a word");
    return "refused";
  }
}

const startsFormula = /^[\s"]*[=+\-@\uff1d\uff0b\uff0d\uff20]/;
const plainNumber = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;
/** Where a spreadsheet that is set to another separator would split a cell. */
const otherSeparators = /[;\t|\r\n]/;

function judgeCsv(csv: string): void {
  for (const row of Papa.parse<string[]>(csv, { delimiter: ",", newline: "\n" }).data) {
    const formula = row.find(
      (cell) =>
        !plainNumber.test(cell) && cell.split(otherSeparators).some((part) => startsFormula.test(part)),
    );
    if (formula !== undefined)
      throw new Error(`a cell of the list of doubts starts a formula: ${formula.slice(0, 40)}`);
  }
}

/** Pieces of a size that makes them end in odd places. */
const piece = 1_021;
const largePiece = 65_521;

async function judgeAsStream({ table, file, bytes }: SourceFile): Promise<void> {
  const size = bytes.length > 1_000_000 ? largePiece : piece;
  const open = async function* () {
    for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
  };
  const { read, used, setAside, queries } = await streamTable<unknown>(
    { file, open },
    {
      table: tables[table] as Table,
      rules: [],
      context: { closedOn: null, dateOrder: "year-first" },
      onRow: () => undefined,
    },
  );
  for (const query of queries) queryText(query);
  if (read !== used + setAside) throw new Error(`stream: ${read} is not ${used} + ${setAside}`);
}
