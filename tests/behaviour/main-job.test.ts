import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../src/ingest/index.js";
import { csvText, dateOfDay, dayNumber } from "../../src/schema/index.js";
import { answer, type Results, readPlan } from "../../src/study/index.js";

/*
 * The main job against the world: a published data set goes in as a cohort's CSV and comes out as results.
 * Data: remission of 42 children, 6-mercaptopurine against placebo, Freireich et al. 1963, Blood 21:699.
 * Remission ended is written as the milestone, 6-MP as ring, placebo as tape, weeks as days.
 * Reference figures: R 4.2.2 with its package survival 3.5.3 (tests/reference/data).
 */
const dataFolder = new URL("../reference/data/", import.meta.url);
const expectedOf = (topic: string, id: string) => {
  const file = JSON.parse(readFileSync(new URL(`${topic}/expected.json`, dataFolder), "utf8"));
  return file.cases.find((one: { id: string }) => one.id === id).expected;
};

const day0 = dayNumber("2021-03-01");
const children = readFileSync(new URL("km/freireich.csv", dataFolder), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(","))
  .map(([group, weeks, relapse], at) => ({
    id: `c${at + 1}`,
    treatment: group === "6-MP" ? "ring" : "tape",
    lastDay: dateOfDay(day0 + Number(weeks) * 7),
    reached: relapse === "1",
  }));

const injuries = csvText(
  [
    "injury_id",
    "person_id",
    "injury_date",
    "hand",
    "finger",
    "pulleys",
    "grade",
    "last_contact_date",
    "full_climbing_date",
  ],
  children.map(({ id, lastDay, reached }) => [
    id,
    id,
    dateOfDay(day0),
    "left",
    "ring",
    "A3",
    "2",
    lastDay,
    reached ? lastDay : null,
  ]),
);
const treatments = csvText(
  ["injury_id", "treatment", "start_date"],
  children.map(({ id, treatment }) => [id, treatment, dateOfDay(day0)]),
);

function resultsAt(horizonWeeks: number): Results {
  const plan = readPlan(
    "study.yaml",
    `study: remission-trial
title: A published trial, as a cohort
data: { injuries: injuries.csv, treatments: treatments.csv }
compare: { groups: [ring, tape], reference: tape, adjust_for: [] }
horizon_weeks: ${horizonWeeks}
landmarks_weeks: [6]
main_landmark_weeks: 6
`,
  );
  const encode = (text: string) => new TextEncoder().encode(text);
  const read = readCohort(
    [
      { table: "injuries", file: "injuries.csv", bytes: encode(injuries) },
      { table: "treatments", file: "treatments.csv", bytes: encode(treatments) },
    ],
    { closedOn: null, thresholdMm: 2 },
  );
  return answer(read, plan);
}

/** The part of the reference file that is compared. */
interface RestrictedMeans {
  readonly "6-MP": { readonly estimate: number };
  readonly placebo: { readonly estimate: number; readonly se: number };
  readonly difference_first_minus_second: { readonly difference: number; readonly se: number };
}

const results = resultsAt(20);
const curveOf = (label: string) =>
  results.curves.find(({ family }) => family === "compared")!.curves.find((curve) => curve.label === label)!;
const close = (found: number | null | undefined, wanted: number | null) => {
  if (wanted === null) expect(found).toBeNull();
  else expect(Math.abs(found! - wanted)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
};

describe("remission trial, Freireich et al. 1963, Blood 21:699, from CSV to results", () => {
  it("counts 42 rows read, 42 used, 42 compared", () => {
    expect(results.accounting.tables[0]).toMatchObject({ read: 42, used: 42, set_aside: 0 });
    expect(results.accounting.comparison).toEqual({ analysed: 42, compared: 42, left_out: [] });
  });

  it("median remission: 23 weeks with 6-MP, 8 weeks with placebo (as in textbooks, from memory)", () => {
    expect(curveOf("ring").quantiles[1]!.days.value).toBe(23 * 7);
    expect(curveOf("tape").quantiles[1]!.days.value).toBe(8 * 7);
  });

  it.each([
    ["ring", "freireich_6mp"],
    ["tape", "freireich_placebo"],
  ])("quartiles of %s with log-log limits, R package survival", (label, id) => {
    const expected = expectedOf("km", id).quantiles_first_time_rule.loglog;
    const inDays = (weeks: number | null) => (weeks === null ? null : weeks * 7);
    expect(curveOf(label).quantiles.map(({ days }) => [days.value, days.lower, days.upper])).toEqual(
      ["p25", "p50", "p75"].map((p) =>
        [expected[p].estimate, expected[p].lower, expected[p].upper].map(inDays),
      ),
    );
  });

  it.each([
    ["ring", "freireich_6mp"],
    ["tape", "freireich_placebo"],
  ])("every step of the curve of %s, R package survival", (label, id) => {
    const { curve } = expectedOf("km", id);
    const points = curveOf(label).points.slice(1);
    expect(points.map(({ day }) => day / 7)).toEqual(curve.time);
    expect(points.map((point) => point.at_risk)).toEqual(curve.at_risk);
    points.forEach((point, at) => {
      close(point.not_yet, curve.survival[at]);
    });
  });

  it("log-rank chi-square 16.793, R package survival", () => {
    const expected = expectedOf("logrank", "freireich").logrank;
    const test = results.tests.find(({ id }) => id === "log_rank:compared")!;
    close(test.statistic, expected.chisq);
    close(test.p, expected.p);
    close(test.groups.find(({ label }) => label === "tape")!.expected, expected.expected[0]);
  });

  it("hazard ratio with Efron ties, R package survival", () => {
    const expected = expectedOf("cox", "freireich_ties").efron;
    const effect = results.effects.find(({ measure }) => measure === "hazard_ratio")!;
    expect(effect.estimate.value).toBeCloseTo(expected.hazard_ratio.mp, 6);
    expect(effect.estimate.lower).toBeCloseTo(expected.ci95.mp[0], 6);
    expect(effect.estimate.upper).toBeCloseTo(expected.ci95.mp[1], 6);
    expect(effect.standard_error).toBeCloseTo(expected.se.mp, 6);
  });

  it.each(expectedOf("rmst", "freireich_groups").map((one: { tau: number }) => [one.tau, one]))(
    "restricted means to week %d, own formula in R 4.2.2",
    (...row: readonly unknown[]) => {
      const [tau, expected] = row as [number, RestrictedMeans];
      const found = resultsAt(tau);
      const compared = found.curves.find(({ family }) => family === "compared")!.curves;
      const means = Object.fromEntries(
        compared.map(({ label, restricted_mean }) => [label, restricted_mean]),
      );
      close(means.ring!.days.value! / 7, expected["6-MP"].estimate);
      close(means.tape!.days.value! / 7, expected.placebo.estimate);
      close(means.tape!.standard_error! / 7, expected.placebo.se);
      const effect = found.effects.find(({ measure }) => measure === "restricted_mean_difference")!;
      close(effect.estimate.value! / 7, expected.difference_first_minus_second.difference);
      close(effect.standard_error! / 7, expected.difference_first_minus_second.se);
    },
  );
});
