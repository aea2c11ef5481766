import type { EffectResult } from "../../../src/study/index.js";
import type { Contrast, Truth } from "../../../src/synthetic/index.js";
import type { Finding } from "../tally.js";
import type { Drawn } from "./draw-study.js";
import { effectFinding, effectOf, printed } from "./read-off.js";

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
export function twoArmFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  return [
    ...landmarkWeeks.flatMap((week) => landmarkFindings(drawn, { truth, week })),
    ...meanFindings(drawn, truth),
    ...ratioFindings(drawn, truth),
    ...distanceFindings(drawn, truth),
  ];
}

function landmarkFindings(
  drawn: Drawn,
  at: { readonly truth: Truth; readonly week: number },
): readonly Finding[] {
  const { truth, week } = at;
  const day = week * 7;
  const name = `difference of shares, week ${week}`;
  const measure = "landmark_difference";
  const crude = effectOf(drawn, { measure, adjusted: false, day });
  const adjusted = effectOf(drawn, { measure, adjusted: true, day });
  const crudeTruth = differenceAt(truth.crude!, day);
  const overGradesTruth = overUsedGrades(adjusted, truth, (contrast) => differenceAt(contrast, day));
  return [
    effectFinding(`${name}, crude`, crude, crudeTruth),
    effectFinding(`${name}, over grades`, adjusted, overGradesTruth),
  ];
}

const daysOf = ({ restricted_mean_difference_days }: Contrast): number =>
  restricted_mean_difference_days.value;

function meanFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const measure = "restricted_mean_difference";
  const crude = effectOf(drawn, { measure, adjusted: false });
  const adjusted = effectOf(drawn, { measure, adjusted: true });
  const usedTruth = overUsedGrades(adjusted, truth, daysOf);
  return [
    effectFinding("difference of mean days, crude", crude, daysOf(truth.crude!)),
    effectFinding("difference of mean days, over grades", adjusted, usedTruth),
  ];
}

/** On the log scale, so that the errors mean something. The crude ratio has one true value only where nothing is confounded. */
function ratioFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const wanted = truth.conditional_hazard_ratio.ring;
  const confounded = truth.by_grade.filter(({ contrast }) => contrast !== null).length > 1;
  const kinds = confounded ? ([true] as const) : ([false] as const);
  return kinds.flatMap((adjusted) => {
    const effect = effectOf(drawn, { measure: "hazard_ratio", adjusted })!;
    const { value, lower, upper } = effect.estimate;
    const log = (limit: number | null) => (limit === null ? null : Math.log(limit));
    const found = { value: log(value), lower: log(lower), upper: log(upper) };
    const name = `log hazard ratio, ${adjusted ? "grade as strata" : "crude"}`;
    return [printed(name, found, Math.log(wanted))];
  });
}

function distanceFindings(drawn: Drawn, truth: Truth): readonly Finding[] {
  const wanted = truth.distance_change_difference_mm;
  const measure = "distance_change_difference";
  const crude = effectOf(drawn, { measure, adjusted: false });
  const adjusted = effectOf(drawn, { measure, adjusted: true });
  return [
    effectFinding("difference of distance change, two means", crude, wanted),
    effectFinding("difference of distance change, adjusted for baseline", adjusted, wanted),
  ];
}
