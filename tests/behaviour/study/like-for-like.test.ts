import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { answer, type EffectResult, readPlan } from "../../../src/study/index.js";

/* The curves like for like of the synthetic registry, against the effects that come from the same strata. */
const folder = new URL("../../../synthetic-data/registry/", import.meta.url);
const plan = readPlan("study.yaml", readFileSync(new URL("study.yaml", folder), "utf8"));
const tables = ["injuries", "treatments", "imaging", "visits", "sites"] as const;
const results = answer(
  readCohort(
    tables.map((table) => ({
      table,
      file: plan.data[table]!,
      bytes: readFileSync(new URL(plan.data[table]!, folder)),
    })),
    { closedOn: plan.data.closed_on!, thresholdMm: plan.distance.threshold_mm },
  ),
  plan,
);
const family = results.curves.find((one) => one.family === "standardised")!;
const [ring, tape] = family.curves;
const effect = (id: string): EffectResult => results.effects.find((one) => one.id === id)!;

describe("curves of the compared groups like for like", () => {
  it("rest on the strata that the adjusted effects rest on", () => {
    const { strata_used, n } = effect("restricted_mean_difference:ring-tape:day-182:adjusted");
    expect(family.held_equal).toEqual(["grade"]);
    expect(family.strata_used).toEqual(strata_used);
    expect([ring!.n, tape!.n]).toEqual([n.compared, n.reference]);
  });

  it.each(plan.landmarks_weeks)("differ at week %d by the adjusted difference", (week) => {
    const at = (curve: typeof ring) => curve!.landmarks.find((one) => one.week === week)!.returned.value!;
    const difference = effect(`landmark_difference:ring-tape:day-${week * 7}:adjusted`).estimate.value!;
    expect(at(ring) - at(tape)).toBeCloseTo(difference, 12);
  });

  it("differ in restricted mean by the adjusted difference", () => {
    const difference = effect("restricted_mean_difference:ring-tape:day-182:adjusted").estimate.value!;
    expect(ring!.restricted_mean.days.value! - tape!.restricted_mean.days.value!).toBeCloseTo(difference, 9);
  });

  it("rise from 0, never fall, and lie within their interval and between none and all", () => {
    for (const { points } of family.curves) {
      expect(points[0]).toMatchObject({ day: 0, returned: 0 });
      points.slice(1).forEach((point, at) => {
        expect(point.returned).toBeGreaterThanOrEqual(points[at]!.returned - 1e-12);
        expect(point.returned_lower ?? 0).toBeGreaterThanOrEqual(0);
        expect(point.returned_upper ?? 1).toBeLessThanOrEqual(1);
        expect(point.returned_lower ?? 0).toBeLessThanOrEqual(point.returned + 1e-12);
      });
    }
  });

  it("count every return of their strata up to the horizon once", () => {
    for (const curve of family.curves) {
      const counted = curve.points.reduce((sum, { events }) => sum + events, 0);
      expect(counted).toBeLessThanOrEqual(curve.events);
      expect(counted).toBe(curve.number_at_risk.at(-1)!.events);
    }
  });
});
