import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import {
  answer,
  type EffectResult,
  measureKeys,
  measureOf,
  type Plan,
  readPlan,
  sideOf,
} from "../../../src/study/index.js";
import { measures } from "../../../src/study/measures/index.js";
import type { Truth } from "../../../src/synthetic/index.js";
import { directionSentence } from "../../../src/words/directions.js";
import { valueWords } from "../../../src/words/estimates.js";
import { unitOf } from "../../../src/words/measures.js";

const folder = new URL("../../../synthetic-data/registry/", import.meta.url);
const textOf = (file: string) => readFileSync(new URL(file, folder), "utf8");
const plan = readPlan("study.yaml", textOf("study.yaml"));
const truth: Truth = JSON.parse(textOf("truth.json"));
const tables = ["injuries", "treatments", "imaging", "visits", "sites"] as const;
const cohort = readCohort(
  tables.map((table) => ({
    table,
    file: plan.data[table]!,
    bytes: readFileSync(new URL(plan.data[table]!, folder)),
  })),
  { closedOn: plan.data.closed_on!, thresholdMm: plan.distance.threshold_mm },
);
const effectsOf = (compare: Partial<Plan["compare"]>) =>
  answer(cohort, { ...plan, compare: { ...plan.compare, ...compare } }).effects;
const effects = effectsOf({});

describe("the measures of a difference between two groups", () => {
  it("stand each under a key of its own, a difference with 0 and a ratio with 1 as no difference", () => {
    expect(new Set(measureKeys).size).toBe(measures.length);
    for (const { scale, nullValue, axis } of measures) {
      expect([scale, nullValue, axis]).toEqual(
        scale === "ratio" ? ["ratio", 1, "logarithmic"] : ["difference", 0, "linear"],
      );
    }
  });

  it.each(measures)(
    "$key: its effects have its unit, one of its methods, and a day if it has one",
    (measure) => {
      const own = effects.filter(({ measure: key }) => key === measure.key);
      expect(own.filter(({ adjusted_for }) => adjusted_for.length === 0)).not.toEqual([]);
      expect(own.filter(({ adjusted_for }) => adjusted_for.length > 0)).not.toEqual([]);
      expect(own.some(({ main }) => main)).toBe(true);
      for (const { unit, method, at_day } of own) {
        expect(unit).toBe(measure.unit);
        expect(measure.methods).toContain(method);
        expect(at_day === null).toBe(measure.day === null);
      }
    },
  );

  /* Swapping the groups turns a difference round and inverts a ratio (by definition). */
  it("mirror at no difference when the groups change places", () => {
    const mirrored = new Map(effectsOf({ reference: "ring" }).map((effect) => [effect.id, effect]));
    const crude = effects.filter(({ adjusted_for }) => adjusted_for.length === 0);
    expect(new Set(crude.map(({ measure }) => measure)).size).toBe(measures.length);
    for (const { id, measure, estimate } of crude) {
      const other = mirrored.get(id.replace("ring-tape", "tape-ring"))!.estimate.value!;
      const { scale, nullValue } = measureOf(measure);
      const mirror = scale === "ratio" ? nullValue / estimate.value! : 2 * nullValue - estimate.value!;
      expect(other).toBeCloseTo(mirror, 6);
    }
  });

  /* In the invented registry the ring brings climbers back earlier and narrows the distance more: its scenario says so. */
  it.each([
    [
      "landmark_difference",
      truth.standardised!.landmark_differences.find(({ week }) => week === 13)!.difference.value,
    ],
    ["restricted_mean_difference", truth.standardised!.restricted_mean_difference_days.value],
    ["hazard_ratio", truth.conditional_hazard_ratio.ring],
    ["distance_change_difference", truth.distance_change_difference_mm],
  ] as const)("%s: the true value of the better treatment, %d, lies on the better side", (key, value) => {
    const facts = measureOf(key);
    expect(sideOf(value, facts)).toBe(facts.above === "better" ? "above" : "below");
  });

  it.each(measures)("$key: a value a hair off no difference is not written like it", ({ key, nullValue }) => {
    const written = (value: number) =>
      valueWords({ value, lower: null, upper: null, reason: null }, unitOf({ measure: key }));
    expect(sideOf(nullValue, measureOf(key))).toBe("none");
    expect(written(nullValue + 0.002)).not.toBe(written(nullValue));
  });
});

describe("what a value above no difference means, as a sentence", () => {
  it("takes each measure's direction, and none of the distances", () => {
    expect(directionSentence(measureKeys)).toBe(
      "A difference in shares above zero and a ratio above one mean an earlier return in the compared group; a difference in mean time above zero means a later one.",
    );
    expect(directionSentence(["restricted_mean_difference"] satisfies EffectResult["measure"][])).toBe(
      "A difference in mean time above zero means a later return in the compared group.",
    );
  });
});
