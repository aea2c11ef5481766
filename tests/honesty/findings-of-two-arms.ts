import type { EffectResult, Results } from "../../src/study/index.js";
import type { Contrast, Truth } from "../../src/synthetic/index.js";
import { byStudent, curveOf, effectFinding, effectOf, printed, recovered } from "./read-off.js";
import type { Finding } from "./tally.js";

const landmarkWeeks = [8, 13] as const;

const differenceAt = ({ landmark_differences }: Contrast, day: number): number =>
  landmark_differences.find((one) => one.day === day)!.difference.value;

/** The true contrast over the grades that a study has used, by their weights in endless data. */
function overUsedGrades(
  effect: EffectResult | undefined,
  truth: Truth,
  of: (contrast: Contrast) => number,
): number {
  const used = truth.by_grade.filter(
    ({ grade, contrast }) => contrast !== null && effect?.strata_used.includes(`grade ${grade}`),
  );
  const whole = used.reduce((sum, { weight }) => sum + weight, 0);
  return used.reduce((sum, { weight, contrast }) => sum + (weight / whole) * of(contrast!), 0);
}

/** Every contrast of ring less tape that a report prints. */
export function twoArmFindings(results: Results, truth: Truth): readonly Finding[] {
  return [
    ...landmarkWeeks.flatMap((week) => landmarkFindings(results, { truth, week })),
    ...meanFindings(results, truth),
    ...ratioFindings(results, truth),
    ...distanceFindings(results, truth),
  ];
}

function landmarkFindings(
  results: Results,
  at: { readonly truth: Truth; readonly week: number },
): readonly Finding[] {
  const { truth, week } = at;
  const day = week * 7;
  const name = `difference of shares, week ${week}`;
  const measure = "landmark_difference";
  const crude = effectOf(results, { measure, adjusted: false, day });
  const adjusted = effectOf(results, { measure, adjusted: true, day });
  const crudeTruth = differenceAt(truth.crude!, day);
  const [ring, tape] = ["ring", "tape"].map(
    (label) => curveOf(results, "compared", label).landmarks.find((one) => one.day === day)!.returned,
  );
  return [
    effectFinding(`${name}, crude`, crude, crudeTruth),
    printed(
      `${name}, crude; recovered from the limits of each group instead`,
      recovered(ring!, tape!),
      crudeTruth,
    ),
    effectFinding(
      `${name}, over grades`,
      adjusted,
      overUsedGrades(adjusted, truth, (contrast) => differenceAt(contrast, day)),
    ),
  ];
}

const daysOf = ({ restricted_mean_difference_days }: Contrast): number =>
  restricted_mean_difference_days.value;

function meanFindings(results: Results, truth: Truth): readonly Finding[] {
  const measure = "restricted_mean_difference";
  const crude = effectOf(results, { measure, adjusted: false });
  const adjusted = effectOf(results, { measure, adjusted: true });
  const usedTruth = overUsedGrades(adjusted, truth, daysOf);
  const df =
    (adjusted?.n.compared ?? 0) + (adjusted?.n.reference ?? 0) - 2 * (adjusted?.strata_used.length ?? 0);
  const error = { value: adjusted?.estimate.value ?? null, error: adjusted?.standard_error ?? null };
  return [
    effectFinding("difference of restricted means, crude", crude, daysOf(truth.crude!)),
    effectFinding("difference of restricted means, over grades", adjusted, usedTruth),
    printed(
      "difference of restricted means, over grades; Student's t, variance times n / (n - groups) instead",
      byStudent(error, { df, factor: Math.sqrt((df + 2 * (adjusted?.strata_used.length ?? 0)) / df) }),
      usedTruth,
    ),
  ];
}

/** On the log scale, so that the errors mean something. The crude ratio has one true value only where nothing is confounded. */
function ratioFindings(results: Results, truth: Truth): readonly Finding[] {
  const wanted = truth.conditional_hazard_ratio.ring;
  const confounded = truth.by_grade.filter(({ contrast }) => contrast !== null).length > 1;
  const kinds = confounded ? ([true] as const) : ([false] as const);
  return kinds.map((adjusted) => {
    const { value, lower, upper } = effectOf(results, { measure: "hazard_ratio", adjusted })!.estimate;
    const log = (limit: number | null) => (limit === null ? null : Math.log(limit));
    const found = { value: log(value), lower: log(lower), upper: log(upper) };
    return printed(`log hazard ratio, ${adjusted ? "grade as strata" : "crude"}`, found, Math.log(wanted));
  });
}

function distanceFindings(results: Results, truth: Truth): readonly Finding[] {
  const wanted = truth.distance_change_difference_mm;
  const measure = "distance_change_difference";
  const welch = results.effects.find((effect) => effect.measure === measure && effect.method === "welch");
  const adjusted = effectOf(results, { measure, adjusted: true });
  return [
    effectFinding("difference of distance change, two means", welch, wanted),
    effectFinding("difference of distance change, adjusted for baseline", adjusted, wanted),
  ];
}
