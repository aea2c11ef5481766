import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/grid/shape/shape-sheet.js";
import { applyMapping } from "../../../../src/ingest/mapping/apply/apply-mapping.js";
import { type Mapping, mappingSchema, type Undecided } from "../../../../src/ingest/mapping/mapping.js";
import { proposeMapping } from "../../../../src/ingest/mapping/propose/propose.js";
import { readMapping } from "../../../../src/ingest/mapping/read-mapping.js";
import { settleQuestion } from "../../../../src/ingest/mapping/settle.js";
import { mappingText } from "../../../../src/ingest/mapping/write-mapping.js";
import { readTable } from "../../../../src/ingest/table/read-table.js";
import type { Table } from "../../../../src/schema/tables.js";
import { tables } from "../../../../src/schema/tables.js";
import { typeRows } from "../../../../src/schema/type-rows.js";
import { type Disguise, disguised, disguises } from "./disguise.js";

const table = tables.single_sheet as Table;
const file = "synthetic-single-sheet.csv";
const bytes = readFileSync(new URL(`../../../../synthetic-data/one-clinic/${file}`, import.meta.url));
const original = readTable({ file, bytes }, table).rows.slice(0, 70);
const fields = table.fields.map(({ name }) => name);

const gridOf = (text: string) => readGrid({ file, bytes: new TextEncoder().encode(text) }).grid!;
const valuesOf = (rows: typeof original) => typeRows(rows, table).typed.map(({ values }) => values);

/** What somebody who knows the sheet would answer; a question about anything else than columns is a surprise. */
function answerTo({ decides }: Undecided, truth: ReadonlyMap<string, string>): string | null {
  const [first = "", second = "", third = ""] = decides[0]!;
  if (first === "meaning") return truth.get(second) ?? null;
  if (third === "from") return [...truth].find(([, field]) => field === second)?.[0] ?? null;
  return third === "numbered" ? "with_thumb" : null;
}

function fitted(
  text: string,
  truth: ReadonlyMap<string, string>,
): { mapping: Mapping; questions: readonly Undecided[] } {
  const sheet = shapeSheet(gridOf(text))!;
  const { mapping } = proposeMapping(sheet, { name: "disguised", table: "single_sheet" });
  const settled = new Map<string, string>();
  for (const question of mapping.undecided) {
    const answer = answerTo(question, truth);
    const [kind, name = ""] = question.decides[0]!;
    if (answer !== null && kind === "meaning") settled.set(answer, name);
    if (answer !== null && question.decides[0]![2] === "from") settled.set(name, answer);
  }
  const again = proposeMapping(sheet, { name: "disguised", table: "single_sheet", settled }).mapping;
  const left = again.undecided.reduce((current, question) => {
    const answer = answerTo(question, truth);
    return answer === null ? current : settleQuestion(current, { question, answer });
  }, again);
  return { mapping: left, questions: mapping.undecided };
}

const seed = 2024;

describe("a sheet in a site's own words", () => {
  it("fitted and read by its mapping gives the very rows it was made from", () => {
    const asked: number[] = [];
    fc.assert(
      fc.property(disguises, (how: Disguise) => {
        const { text, truth } = disguised(
          original.map(({ cells }) => cells),
          fields,
          how,
        );
        const { mapping, questions } = fitted(text, truth);
        asked.push(questions.length);
        expect(mapping.undecided.map(({ question }) => question)).toEqual([]);
        const written = mappingText(mapping, { head: [], settings: {}, columns: {} });
        const read = applyMapping(gridOf(text), readMapping({ file: "mapping.yaml", text: written }));
        expect(read.queries.filter(({ code }) => code !== "row-left-out")).toEqual([]);
        expect(valuesOf(read.rows as typeof original)).toEqual(valuesOf(original));
      }),
      { seed, numRuns: 24, endOnFailure: true },
    );
    expect(asked.reduce((sum, count) => sum + count, 0) / asked.length).toBeLessThan(1);
  });

  it("a mapping written and read again is the same mapping", () => {
    fc.assert(
      fc.property(disguises, (how: Disguise) => {
        const { text } = disguised(
          original.map(({ cells }) => cells),
          fields,
          how,
        );
        const { mapping } = proposeMapping(shapeSheet(gridOf(text))!, {
          name: "disguised",
          table: "single_sheet",
        });
        const written = mappingText(mapping, {
          head: ["A head"],
          settings: { date_order: "evidence" },
          columns: {},
        });
        const read = readMapping({ file: "mapping.yaml", text: written }, { undecided: "kept" });
        const nulls = (each: Mapping) => each.undecided.map((question) => ({ ...question, answer: null }));
        expect({ ...read, undecided: nulls(read) }).toEqual({
          ...mappingSchema.parse(mapping),
          undecided: nulls(mapping),
        });
      }),
      { seed, numRuns: 8 },
    );
  });
});
