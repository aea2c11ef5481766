import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { daysBetween } from "../../../src/schema/dates.js";
import { productLimit, shareAt } from "../../../src/statistics/index.js";
import {
  completeScenario,
  drawCohort,
  readScenario,
  type ScenarioAsWritten,
  type SyntheticCohort,
  trueEffects,
} from "../../../src/synthetic/index.js";

const site = { id: "site-a", dates: { week_share: 0, month_share: 0, between_visits_share: 0 } };
const plain = {
  name: "features",
  title: "SYNTHETIC",
  seed: 7,
  injuries: 4000,
  heaped_share: 0,
  sites: [site],
  injury: { grade_mix: { "1": 0, "2": 1, "3": 0, "4a": 0, "4b": 0 } },
} satisfies ScenarioAsWritten;
const cohortOf = (written: Partial<ScenarioAsWritten>): SyntheticCohort =>
  drawCohort(completeScenario({ ...plain, ...written }));

const firstTreatmentOf = ({ treatments }: SyntheticCohort) =>
  new Map(
    treatments
      .filter(({ treatment }) => treatment !== "rehabilitation" && treatment !== "rest")
      .toReversed()
      .map(({ injury_id, treatment }) => [injury_id, treatment]),
  );

describe("what a scenario can ask for beyond the usual", () => {
  it("as the guide to the synthetic data writes it: ruptures after a return, complications, no return known to the day", () => {
    const guide = readFileSync(new URL("../../../synthetic-data/README.md", import.meta.url), "utf8");
    const { injuries, visits } = drawCohort(
      readScenario("harder.yaml", /```yaml\n([\s\S]*?)```/.exec(guide)![1]!),
    );
    const after = injuries.filter(
      (row) =>
        row.new_rupture_date !== null &&
        row.full_climbing_not_after !== null &&
        row.full_climbing_not_after <= row.new_rupture_date,
    );
    expect(after.length).toBeGreaterThan(0);
    expect(visits.some(({ complication }) => complication !== "none")).toBe(true);
    expect(injuries.filter((row) => row.full_climbing_date !== null)).toEqual([]);
  });

  it("another plan of visits with a ring than with tape", () => {
    const cohort = cohortOf({
      injuries: 400,
      sites: [{ ...site, visit_weeks: [20], visit_weeks_by_treatment: { ring: [2, 3, 4, 5, 20] } }],
      treatment: { tape_to_ring: { "1": 0, "2": 0, "3": 0, "4a": 0, "4b": 0 } },
    });
    const treatment = firstTreatmentOf(cohort);
    const injured = new Map(cohort.injuries.map((row) => [row.injury_id, row.injury_date]));
    const early = (wanted: string) =>
      cohort.visits.filter(
        ({ injury_id, date, kind }) =>
          kind === "clinic" &&
          treatment.get(injury_id) === wanted &&
          daysBetween(injured.get(injury_id)!, date) > 21 &&
          daysBetween(injured.get(injury_id)!, date) < 84,
      ).length;
    expect(early("ring")).toBeGreaterThan(100);
    expect(early("tape")).toBe(0);
  });

  it("loss that depends on the course: the share back that the data show is then no longer the true one", () => {
    const biasWith = (lost_by_course: number): number => {
      const ends = { lost_per_week: 0.06, lost_by_course, gave_up_per_week: 0, new_rupture_per_week: 0 };
      const { injuries } = cohortOf({ ends, treatment: { first: allTape } });
      const seen = injuries.map((row) => ({
        day: daysBetween(row.injury_date, row.full_climbing_date ?? row.last_contact_date),
        back: row.full_climbing_date === null ? 0 : 1,
      }));
      const curve = productLimit({ times: seen.map(({ day }) => day), events: seen.map(({ back }) => back) });
      const truth = trueEffects(completeScenario({ ...plain, ends, treatment: { first: allTape } }), {
        draws: 20_000,
      });
      return (
        shareAt(curve, 70).returned! - truth.cells[0]!.landmarks.find(({ day }) => day === 70)!.returned.value
      );
    };
    // a share of 4000 injuries has a standard error of about 1 point
    expect(Math.abs(biasWith(0))).toBeLessThan(0.035);
    expect(biasWith(1.5)).toBeGreaterThan(0.06);
  });

  it("complications, as often as asked for with each first treatment", () => {
    const cohort = cohortOf({ ends: { complication_share: { tape: 0, ring: 0.2, surgery: 0, none: 0 } } });
    const treatment = firstTreatmentOf(cohort);
    const complicated = new Set(
      cohort.visits.filter(({ complication }) => complication !== "none").map(({ injury_id }) => injury_id),
    );
    const others = [...complicated]
      .map((id) => treatment.get(id))
      .filter((one) => one === "tape" || one === "surgery");
    expect(others).toEqual([]);
    const ringed = [...treatment.values()].filter((one) => one === "ring").length;
    // binomial: within four standard errors of 20 %; some have one contact only, at which nothing is found
    expect(complicated.size / ringed).toBeGreaterThan(0.2 - 4 * Math.sqrt(0.16 / ringed) - 0.02);
    expect(complicated.size / ringed).toBeLessThan(0.2 + 4 * Math.sqrt(0.16 / ringed));
  });

  it("more new ruptures after the return", () => {
    const rupturesWith = (new_rupture_after_return: number): number =>
      cohortOf({ ends: { new_rupture_per_week: 0.002, new_rupture_after_return } }).injuries.filter(
        ({ new_rupture_date, full_climbing_date }) =>
          new_rupture_date !== null && full_climbing_date !== null && full_climbing_date < new_rupture_date,
      ).length;
    expect(rupturesWith(0)).toBe(0);
    expect(rupturesWith(8)).toBeGreaterThan(3 * rupturesWith(1));
  });
});

const tape = { tape: 1, ring: 0, surgery: 0, none: 0 };
const allTape = { "1": tape, "2": tape, "3": tape, "4a": tape, "4b": tape };
