import { describe, expect, it } from "vitest";
import type { PlanAsWritten } from "../../../src/study/index.js";
import { injury, on, type Row, resultsOfTables, treated } from "./hand-made.js";

const reading = (id: string, { day, mm }: { readonly day: number; readonly mm: number }): Row => ({
  injury_id: id,
  date: on(day),
  modality: "ultrasound",
  pulley: "A2",
  position: "loaded",
  distance_mm: String(mm),
});

interface Read {
  readonly id: string;
  readonly treatment: "ring" | "tape";
  readonly grade: "2" | "3";
  readonly first: number;
  /** Day of the first reading; treatments begin on day 1. */
  readonly from?: number;
  readonly between: number;
  readonly last: number;
}

const resultsOf = (reads: readonly Read[], written: Partial<PlanAsWritten> = {}) =>
  resultsOfTables(
    {
      injuries: reads.map(({ id, grade }) => injury(id, { grade, pulleys: "A2" })),
      treatments: reads.map(({ id, treatment }) => treated(id, treatment)),
      imaging: reads.flatMap(({ id, first, from = 0, between, last }) => [
        reading(id, { day: from, mm: first }),
        reading(id, { day: from + between, mm: last }),
      ]),
    },
    written,
  );

/** Last reading = 1 + 0.5 first + 1 in grade 3 - 0.01 a day between - 0.4 with a ring, to the digit. */
const exact: readonly Read[] = (
  [
    ["ring", "2", 2, 60],
    ["ring", "3", 4, 100],
    ["ring", "3", 3, 80],
    ["ring", "3", 5, 90],
    ["ring", "2", 3, 70],
    ["tape", "2", 2, 40],
    ["tape", "2", 3, 50],
    ["tape", "2", 4, 90],
    ["tape", "3", 5, 60],
    ["tape", "3", 3, 30],
  ] as const
).map(([treatment, grade, first, between], place) => ({
  id: `e${place}`,
  treatment,
  grade,
  first,
  between,
  last: Number(
    (1 + 0.5 * first + (grade === "3" ? 1 : 0) - 0.01 * between - (treatment === "ring" ? 0.4 : 0)).toFixed(
      4,
    ),
  ),
}));

const change = (results: ReturnType<typeof resultsOf>, kind: "crude" | "adjusted") =>
  results.effects.find(
    ({ measure, adjusted_for }) =>
      measure === "distance_change_difference" && adjusted_for.length > 0 === (kind === "adjusted"),
  );

describe("change of the distance", () => {
  it("at equal baseline, grade and time between readings the ring takes 0.4 mm off, as the readings were made", () => {
    const adjusted = change(resultsOf(exact), "adjusted");
    expect(adjusted?.adjusted_for).toEqual(["distance at baseline", "grade", "days between readings"]);
    expect(adjusted?.estimate.value).toBeCloseTo(-0.4, 9);
  });

  it("an injury without a grade leaves the adjusted difference and is counted", () => {
    const without = exact.map((read, place) => (place === 0 ? { ...read, grade: "" as "2" } : read));
    const adjusted = change(
      resultsOfTables({
        injuries: without.map(({ id, grade }) =>
          injury(id, { grade: grade === ("" as string) ? "unknown" : grade, pulleys: "A2" }),
        ),
        treatments: without.map(({ id, treatment }) => treated(id, treatment)),
        imaging: without.flatMap(({ id, first, between, last }) => [
          reading(id, { day: 0, mm: first }),
          reading(id, { day: between, mm: last }),
        ]),
      }),
      "adjusted",
    );
    expect(adjusted?.n).toEqual({ compared: 4, reference: 5 });
    expect(adjusted?.left_out).toEqual([{ stratum: "grade", n: 1, reason: "missing-covariate" }]);
  });

  it("where the grade tells who had the ring there is no adjusted difference", () => {
    const apart = exact.map((read) => ({
      ...read,
      grade: read.treatment === "ring" ? ("3" as const) : ("2" as const),
    }));
    expect(change(resultsOf(apart), "adjusted")?.estimate).toMatchObject({
      value: null,
      reason: "collinear",
    });
  });

  it("a first reading the day after the treatment began is no baseline; one on that day is", () => {
    const late = exact.map((read, place) => ({ ...read, from: place === 0 ? 2 : 1 }));
    const results = resultsOf(late);
    expect(results.distances).toMatchObject({
      injuries_with_baseline: 9,
      injuries_read_late: 1,
      injuries_with_both: 9,
    });
    expect(change(results, "crude")?.n).toEqual({ compared: 4, reference: 5 });
    expect(results.queries.filter(({ code }) => code === "first-distance-after-treatment")).toMatchObject([
      { n: 1 },
    ]);
    expect(
      results.cohort.rows.find(({ variable }) => variable === "distance_loaded_first")?.overall,
    ).toMatchObject({
      n: 9,
      missing: 1,
    });
  });
});

describe("late first visits", () => {
  const seen = (days: readonly number[], written: Partial<PlanAsWritten> = {}) =>
    resultsOfTables(
      {
        injuries: days.map((day, place) =>
          injury(`v${place}`, { first_visit_date: on(day), full_climbing_date: on(place === 0 ? day : 91) }),
        ),
        treatments: days.map((_, place) => treated(`v${place}`, place % 2 === 0 ? "ring" : "tape")),
      },
      written,
    ).warnings.filter(({ code }) => code === "first-visits-late");

  it("are warned of with their size: median 14, upper quartile 20 days, one of five back by then", () => {
    expect(seen([20, 20, 14, 10, 6])).toMatchObject([
      { code: "first-visits-late", facts: { median_days: 14, upper_quartile_days: 20, n: 1, of: 5 } },
    ]);
  });

  it("are not where an upper quartile comes within two weeks, or injuries count from the first visit on", () => {
    expect(seen([60, 13, 13, 10, 6])).toEqual([]);
    expect(seen([20, 20, 14, 10, 6], { question: { entry: "first_visit" } })).toEqual([]);
    expect(seen([20, 20, 14, 10, 6], { question: { clock: "first_visit" } })).toEqual([]);
  });
});
