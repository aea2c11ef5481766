import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Plan } from "../../study/plan.js";
import type { Count, CurveFamily, CurveResult } from "../../study/results.js";
import { figureCaution } from "../cautions.js";
import { isSome, isTold, returnedOf, sumOf } from "../counts.js";
import { fieldOf, gradeName } from "../curve-families.js";
import { estimateWords, intervalName, weeksEstimateWords } from "../estimates.js";
import { spanNote } from "../known-returns.js";
import { plainNumber } from "../numbers.js";
import { listed } from "../phrases.js";
import { shareBackNote } from "../share-back.js";
import { clockWords, entryWords, fieldWords, milestoneWords } from "../terms.js";
import { shortWindowWords, windowOf } from "../usual-windows.js";
import type { FigureText } from "./figure-text.js";
import { drawnText, type FigurePlan, groupNames, groupNumber, ownName } from "./group-names.js";

/** What a figure of return curves is about. */
export interface CurvesShown {
  readonly family: CurveFamily;
  readonly plan: Plan;
  /** The grade of the cohort where all injuries have the same; its usual window is then drawn behind the curves. */
  readonly onlyGrade?: string;
}

export const shareTitle = ({ question }: Plan): string => `share ${milestoneWords[question.milestone].back}`;
/** The same over panels with the usual windows behind the curves. */
export const shareTitleWithWindows = (plan: Plan): string =>
  `${shareTitle(plan)}; pale: usual window, common practice`;
export const timeTitle = ({ question }: Plan): string => `weeks since ${clockWords[question.clock]}`;
/** Over the numbers at risk: with a late entry nobody is at risk at first. */
export const atRiskTitle = (entry: CurveFamily["entry"]): string =>
  ({
    clock: "injuries at risk",
    first_visit: "injuries at risk once seen",
    treatment: "injuries at risk once treated",
  })[entry];

/** Fewer at risk than these make a stretch of a curve uncertain (common practice, no source). */
const few = 5;

/** Whether few are at risk from a point of a curve to the next. */
export function fewAtRisk({ points }: Pick<CurveResult, "points">, i: number): boolean {
  const [point, next] = [points[i]!, points[i + 1]];
  if (next !== undefined) return isTold(next.at_risk, (n) => n < few);
  const left = [point.at_risk, point.events, point.competing];
  return left.every((n) => typeof n === "number") && left[0]! - left[1]! - left[2]! < few;
}
export const medianTitle = "median, weeks (CI)";
export const windowOfGrade = (grade: string): string => `usual window of grade ${grade}, common practice`;

/** How the curves of a family are called, and what is to be said about it. */
export interface CurveNames {
  readonly of: (curve: CurveResult) => string;
  readonly notes: readonly string[];
}

export function curveNames({ family, curves }: CurveFamily, plan: FigurePlan): CurveNames {
  const { compare } = plan;
  const by = fieldOf(family, compare.by);
  const labels =
    family === "compared" || family === "standardised" ? compare.groups : curves.map(({ label }) => label);
  const names = groupNames({ by: by ?? "", labels }, plan);
  return {
    of: ({ label }) =>
      ownName(plan, label) ?? (by === "grade" ? gradeName(names.of(label)) : names.of(label)),
    notes: names.notes,
  };
}

/** Under the name of a grade in its panel: how many, the median, and the usual window where it is drawn. */
export function gradeFacts(
  { result, grade }: { readonly result: CurveResult; readonly grade: string | null },
  plan: Plan,
  { windows }: { readonly windows: boolean },
): readonly string[] {
  const window = windows ? windowOf(grade, plan) : null;
  const known = result.quantiles.some(({ share, days }) => share === 0.5 && days.value !== null);
  return [
    `n = ${result.n}, ${result.events} back`,
    known ? `median ${unbrokenInterval(medianWords(result))}` : "median not reached",
    ...(window === null ? [] : [`usual ${shortWindowWords(window)}`]),
  ];
}

/** An interval in brackets stays on one line of a narrow panel. */
const unbrokenInterval = (words: string): string =>
  words.replace(/\(.*\)/, (interval) => interval.replaceAll(" ", "\u00a0"));

/** The median time to return with its interval, in weeks. */
export function medianWords({ quantiles }: CurveResult): string {
  const half = quantiles.find(({ share }) => share === 0.5);
  return half ? weeksEstimateWords(half.days) : "not computed";
}

/** Title, subtitle, text alternative and notes of a figure of return curves. */
export function curveText(shown: CurvesShown): FigureText {
  const { family, plan } = shown;
  const names = curveNames(family, plan);
  return {
    id: idOf(family, plan),
    title: `How long until ${milestoneWords[plan.question.milestone].name}${familyPhrase(family, plan)}?`,
    subtitle: subtitleOf(family, plan),
    description: [
      `Curves of the ${shareTitle(plan)} by ${timeTitle(plan)}, with ${intervalName(plan.confidence_level)}s.`,
      ...family.curves.map((curve) => curveSentence(curve, { name: names.of(curve), plan })),
    ].join(" "),
    notes: [...notesOf(shown), ...names.notes, ...clockNote(shown), figureCaution],
    synthetic: plan.synthetic,
    individual: false,
  };
}

/**
 * Safe as a file name, and different for each adjusted pair of groups: a pair has the number of its group among
 * those compared, since a name of a group may be anything.
 */
function idOf({ family, curves }: CurveFamily, plan: Plan): string {
  const place = groupNumber(plan, curves[0]?.label ?? "");
  return `return-curve-${family}${family === "standardised" ? `-${place}` : ""}`;
}

/** The groups of a family at the end of a title: ", by treatment". */
export function familyPhrase(
  { family, held_equal }: Pick<CurveFamily, "family" | "held_equal">,
  { compare }: Plan,
): string {
  const by = fieldOf(family, compare.by);
  if (by === null) return "";
  if (family === "definition") return ", by the definition of the return";
  const adjusted = family === "standardised" ? `, adjusted for ${listed(fieldWords(held_equal))}` : "";
  return `, by ${labelOf(by)}${adjusted}`;
}

const total = (curves: readonly CurveResult[], count: (curve: CurveResult) => Count): Count =>
  sumOf(curves.map(count));

function subtitleOf({ curves }: CurveFamily, plan: Plan): string {
  const n = total(curves, (curve) => curve.n);
  const returned = total(curves, ({ events }) => events);
  return `${counted(n, "injury", "injuries")}, ${returnedOf(returned)}; shaded: ${intervalName(plan.confidence_level)} (CI)`;
}

function notesOf({ family, plan }: CurvesShown): readonly string[] {
  const { curves } = family;
  if (curves.length === 0) return [];
  const competing = total(curves, (curve) => curve.competing);
  const coarse = curves.some((curve) => curve.coarse === true);
  return [
    ...(coarse ? ["Shares are given at the corners of a line; between them it only guides the eye."] : []),
    ...(family.family === "standardised" && family.model === null ? [adjustmentNote(family)] : []),
    ...(family.model === null ? [] : [spanNote(curves)]),
    ...(family.family !== "standardised" && !coarse && family.model === null
      ? ["Short strokes: end of follow-up (censored)."]
      : []),
    ...(family.model === null && curves.some((curve) => curve.points.some((_, i) => fewAtRisk(curve, i)))
      ? ["Thin and pale: fewer than five at risk."]
      : []),
    "Open marks: median time to return.",
    ...(family.family === "definition"
      ? ["Sites mean different things by the milestone; the report has their words."]
      : []),
    ...(isSome(competing) ? [shareBackNote(plan.question)] : []),
    ...(family.family === "compared" && plan.compare.adjust_for.length > 0
      ? [`Crude curves, not adjusted for ${listed(fieldWords(plan.compare.adjust_for))}.`]
      : []),
    ...(family.entry === "clock" ? [] : [entryWords[family.entry]]),
  ];
}

const adjustmentNote = ({ strata_used }: CurveFamily): string =>
  `Averaged over ${strata_used.map(drawnText).join("; ")}, in the same proportions for both groups.`;

/** The windows are counted from the injury, whatever the axis begins with. */
function clockNote({ family, plan, onlyGrade }: CurvesShown): readonly string[] {
  const isShown =
    family.curves.some(({ label }) => family.family === "grade" && windowOf(label, plan)) ||
    windowOf(onlyGrade ?? null, plan) !== null;
  if (!isShown || family.curves.length === 0 || plan.question.clock === "injury") return [];
  return [
    `Usual windows are counted from the injury; this axis begins at ${clockWords[plan.question.clock]}.`,
  ];
}

function curveSentence(curve: CurveResult, { name, plan }: { name: string; plan: Plan }): string {
  const landmark = curve.landmarks.find(({ week }) => week === plan.main_landmark_weeks);
  const parts = [
    `${name}: n = ${curve.n}, ${returnedOf(curve.events)}`,
    `median, weeks: ${medianWords(curve)}`,
    ...(landmark
      ? [
          `returned by week ${plainNumber(landmark.week)}, per cent: ${estimateWords(landmark.returned, "share")}`,
        ]
      : []),
  ];
  return `${parts.join("; ")}.`;
}
