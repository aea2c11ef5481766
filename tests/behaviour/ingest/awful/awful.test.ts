import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  type CohortSource,
  openSource,
  readCohort,
  readFileAsGrid,
  type SourceFile,
  shapeSheet,
} from "../../../../src/ingest/index.js";
import { openMapped, proposeMapping, settleQuestion } from "../../../../src/ingest/mapping/index.js";

/** What must be found in each sheet; made_with lists the faults that were put into it by hand. */
interface Golden {
  readonly made_with: string;
  /** Rows that are not records; only for sheets that are not in our columns. */
  readonly leftOut?: readonly string[];
  /** What is asked before the sheet can be read, and the answer that is taken here. */
  readonly questions?: readonly { readonly asks: string; readonly answer: string }[];
  readonly columns?: Readonly<Record<string, unknown>>;
  readonly rows: { readonly read: number; readonly used: number; readonly setAside: readonly number[] };
  /** Row, column and kind of every query, in order. */
  readonly queries: readonly string[];
}

const folder = new URL("./", import.meta.url);
const golden = JSON.parse(readFileSync(new URL("golden.json", folder), "utf8")) as Readonly<
  Record<string, Golden>
>;
const sheets = Object.entries(golden);

/** Opens a sheet as a new site would: proposed from the file alone, with the golden answers to what is asked. */
async function openThroughProposal(
  source: SourceFile,
  { leftOut, questions = [], columns }: Golden,
): Promise<CohortSource> {
  const { grid } = await readFileAsGrid(source);
  const sheet = shapeSheet(grid!)!;
  expect(sheet.leftOut.map(({ row, kind }) => `${row} ${kind}`)).toEqual(leftOut);
  let { mapping } = proposeMapping(sheet, { name: "awful", table: "single_sheet" });
  expect(mapping.undecided.map(({ question }) => question)).toEqual(questions.map(({ asks }) => asks));
  for (const { answer } of questions)
    mapping = settleQuestion(mapping, { question: mapping.undecided[0]!, answer });
  const from = Object.entries(mapping.columns).map(([column, rule]) => [
    column,
    rule.from ?? rule.ticked ?? rule.constant,
  ]);
  expect(Object.fromEntries(from)).toEqual(columns);
  return openMapped(source, { mapping });
}

async function readAwful(file: string) {
  const source: SourceFile = { table: "single_sheet", file, bytes: readFileSync(new URL(file, folder)) };
  const wanted = golden[file]!;
  const opened =
    wanted.columns === undefined
      ? await openSource(source, { keep: "every" })
      : await openThroughProposal(source, wanted);
  return readCohort([opened], { closedOn: "2025-12-01", thresholdMm: 2 });
}

describe("ten awful spreadsheets, invented", () => {
  it("all of them are here", () => {
    expect(sheets).toHaveLength(10);
    expect(
      readdirSync(folder)
        .filter((name) => /^\d/.test(name))
        .sort(),
    ).toEqual(sheets.map(([name]) => name).sort());
  });

  it.each(sheets)(
    "%s: every row is accounted for and every query is the one expected",
    async (file, { rows, queries: wanted }) => {
      const { accounts, queries } = await readAwful(file);
      const found = accounts.map(({ read, used, setAside }) => ({
        read,
        used,
        setAside: setAside.map(({ row }) => row),
      }));
      expect(found).toEqual([rows]);
      expect(queries.map(({ row, column, code }) => [row ?? "-", column ?? "-", code].join(" | "))).toEqual(
        wanted,
      );
    },
  );

  it("months, weeks and counts of weeks stay as inexact as they were written", async () => {
    const { tables } = await readAwful("07-day-numbers-of-1904.xlsx");
    const returns = tables.injuries.map(({ row, values }) => [
      row,
      values.full_climbing_date,
      values.full_climbing_precision,
      values.full_climbing_not_before,
      values.full_climbing_not_after,
    ]);
    expect(returns).toEqual(
      expect.arrayContaining([
        [5, "2024-06-16", null, null, null],
        [6, "2024-08-15", "month", null, null],
        // ISO 8601: week 30 of 2024 is 22 to 28 July, its Thursday 25 July
        [7, "2024-07-25", "week", null, null],
        [8, null, null, "2024-06-10", "2024-06-17"],
      ]),
    );
  });

  it("a distance above a bound is a bound, one with its unit is a number, a range is asked about", async () => {
    const file = "04-bounds-and-ranges.csv";
    const source: SourceFile = { table: "single_sheet", file, bytes: readFileSync(new URL(file, folder)) };
    const opened = await openThroughProposal(source, golden[file]!);
    const cells =
      "read" in opened ? opened.read.rows.map(({ row, cells: c }) => [row, c.distance_loaded_first]) : [];
    expect(cells).toEqual(
      expect.arrayContaining([
        [4, ">2"],
        [5, "2.4"],
      ]),
    );
  });
});
