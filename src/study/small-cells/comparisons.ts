import type { ExactEffect, ExactResults, ExactTest } from "../exact-results.js";
import { measureOf } from "../measures/index.js";
import type { CurveFamily, EffectResult, Results, TestResult } from "../results.js";
import { type Estimate, smallCell } from "../results-parts.js";
import { marksApart } from "./chain.js";
import { type Counting, leftOut, type Measured, shareOf } from "./counting.js";

/**
 * Tests without how many returns were seen and expected in each group, since the two together give the counts away; of a
 * test with a group that is too small nothing is told.
 */
export const testsWithout = (
  tests: readonly ExactTest[],
  { told, isEnough, rounded }: Counting,
): TestResult[] =>
  tests.map((test) => {
    const groups = test.groups.map(({ label, n }) => ({ label, n: told(n), observed: null, expected: null }));
    if (!test.groups.every(({ n }) => isEnough(n))) {
      return { ...test, groups, statistic: null, p: null, reason: test.reason ?? "small-cell" };
    }
    const { statistic, p } = test;
    return { ...test, groups, statistic: rounded(statistic, "other"), p: rounded(p, "other") };
  });

/**
 * Effects, without those of a group with too few people or returns, and without a difference at a day on which the
 * curve of one of the groups is not told.
 */
export function effectsWithout(
  effects: readonly ExactEffect[],
  { curves, counting }: { readonly curves: readonly CurveFamily[]; readonly counting: Counting },
): EffectResult[] {
  const { told, part, isEnough, rounded, roundedEstimate } = counting;
  return effects.map((effect) => {
    const { n, events, estimate } = effect;
    const sides = [n.compared, n.reference, events.compared, events.reference];
    const isTold =
      sides.every(isEnough) && (measureOf(effect.measure).day !== "landmark" || isShown(effect, curves));
    const measured: Readonly<Record<typeof effect.unit, Measured>> = {
      share: { shareOf: Math.min(n.compared, n.reference) },
      d: "week",
      ratio: "other",
      mm: "other",
    };
    return {
      ...effect,
      estimate: isTold
        ? besideNone(estimate, roundedEstimate(estimate, measured[effect.unit]))
        : leftOut(estimate),
      standard_error: null,
      p: isTold ? rounded(effect.p, "other") : null,
      n: { compared: told(n.compared), reference: told(n.reference) },
      events: {
        compared: part(events.compared, n.compared),
        reference: part(events.reference, n.reference),
      },
      left_out: effect.left_out.map((stratum) => ({ ...stratum, n: told(stratum.n) })),
    };
  });
}

/**
 * A difference with fewer digits that is told as none only where it is none: a figure or a limit that would become 0 keeps
 * its first digit, so that the interval holds 0 if and only if the one computed does.
 */
function besideNone(exact: Estimate, told: Estimate): Estimate {
  const one = (of: "value" | "lower" | "upper") =>
    told[of] === 0 && exact[of] !== null ? Number(exact[of].toPrecision(1)) : told[of];
  return { ...told, value: one("value"), lower: one("lower"), upper: one("upper") };
}

/** Whether the curves of both groups are told at the day of a difference. */
function isShown({ compared, reference, at_day, adjusted_for }: ExactEffect, curves: readonly CurveFamily[]) {
  const wanted = adjusted_for.length > 0 ? "standardised" : "compared";
  return curves
    .filter(({ family }) => family === wanted)
    .some((family) =>
      [compared, reference].every((label) =>
        family.curves
          .find((curve) => curve.label === label)
          ?.landmarks.some(({ day, returned }) => day === at_day && returned.value !== null),
      ),
    );
}

/** Distances of groups; no injury by itself, and only thresholds between which enough lie. */
export function distancesWithout(
  distances: NonNullable<ExactResults["distances"]>,
  counting: Counting,
): NonNullable<Results["distances"]> {
  const { told, part, isEnough, note, roundedEstimate } = counting;
  note(distances.pairs.length);
  const marks = marksApart(
    distances.thresholds
      .map(({ threshold_mm, n, above }) => ({ at: threshold_mm, counted: n - above }))
      .sort((one) => (one.at === distances.threshold_mm ? -1 : 0)),
    { whole: distances.injuries_with_baseline, isEnough },
  );
  return {
    ...distances,
    injuries_with_baseline: told(distances.injuries_with_baseline),
    injuries_read_late: told(distances.injuries_read_late),
    injuries_with_both: told(distances.injuries_with_both),
    groups: distances.groups.map((group) => groupWithout(group, counting)),
    pairs: [],
    thresholds: distances.thresholds.map((threshold) => {
      const n = told(threshold.n);
      const isApart = marks.some(({ at }) => at === threshold.threshold_mm);
      const above = isApart ? part(threshold.above, threshold.n) : smallCell;
      const share_above =
        shareOf(above, n) === null
          ? leftOut(threshold.share_above)
          : roundedEstimate(threshold.share_above, { shareOf: threshold.n });
      return { ...threshold, n, above, share_above };
    }),
  };
}

function groupWithout(
  group: NonNullable<ExactResults["distances"]>["groups"][number],
  { told, isEnough, rounded, roundedEstimate, isEnoughFor }: Counting,
): NonNullable<Results["distances"]>["groups"][number] {
  const enough = isEnough(group.n);
  const number = (value: number | null) => (enough ? rounded(value, "other") : null);
  return {
    label: group.label,
    n: told(group.n),
    before_mean: number(group.before_mean),
    before_standard_deviation: number(group.before_standard_deviation),
    after_mean: number(group.after_mean),
    after_standard_deviation: number(group.after_standard_deviation),
    change: enough ? roundedEstimate(group.change, "other") : leftOut(group.change),
    median_days_between: isEnoughFor("median", group.n) ? rounded(group.median_days_between, "week") : null,
  };
}
