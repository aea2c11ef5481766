import { measureKeys, measureOf } from "../../study/measures/index.js";
import type { Plan } from "../../study/plan.js";
import type { EffectResult } from "../../study/results.js";
import { figureCaution, undecidedLine } from "../cautions.js";
import { estimateWords, intervalName, shortIntervalName } from "../estimates.js";
import { comparisonName, measureWords, unitOf } from "../measures.js";
import { plainNumber } from "../numbers.js";
import { listed } from "../phrases.js";
import { fieldWords, milestoneWords } from "../terms.js";
import type { FigureText } from "./figure-text.js";
import { comparedNames } from "./group-names.js";

/** What the figure of the differences is about. */
export interface EffectsShown {
  /** All are drawn; choose before, for example those that are `main`. */
  readonly effects: readonly EffectResult[];
  readonly plan: Plan;
}

export const estimateTitle = ({ confidence_level }: Plan): string =>
  `estimate (${shortIntervalName(confidence_level)})`;

/** The groups, and the day of a measure that has one. */
export function effectName(
  { measure, compared, reference, at_day }: EffectResult,
  of: (label: string) => string,
): string {
  const name = comparisonName(of(compared), of(reference));
  if (at_day === null) return name;
  const week = `week\u00a0${plainNumber(at_day / 7, 1)}`;
  return `${name}, ${measureOf(measure).day === "horizon" ? `up\u00a0to ${week}` : week}`;
}

export const isCrude = ({ adjusted_for }: EffectResult): boolean => adjusted_for.length === 0;

/** Groups and day: effects that agree in them stand together under one name. */
export const comparisonOf = ({ compared, reference, at_day }: EffectResult): string =>
  JSON.stringify([compared, reference, at_day]);

/** Measure by measure, comparison by comparison, crude before adjusted. */
export function inFigureOrder(effects: readonly EffectResult[]): readonly EffectResult[] {
  const comparisons = [...new Set(effects.map(comparisonOf))];
  const place = (effect: EffectResult) => comparisons.indexOf(comparisonOf(effect));
  return [...effects].sort(
    (a, b) =>
      measureKeys.indexOf(a.measure) - measureKeys.indexOf(b.measure) ||
      place(a) - place(b) ||
      Number(!isCrude(a)) - Number(!isCrude(b)),
  );
}

/** The different sets of covariates, in order of appearance. */
export const adjustmentSets = (effects: readonly EffectResult[]): readonly string[] => [
  ...new Set(effects.filter((effect) => !isCrude(effect)).map(setWords)),
];
const setWords = ({ adjusted_for }: EffectResult): string => listed(fieldWords(adjusted_for));

/** With one set of covariates 'adjusted' is enough in a row; several carry a letter each, which a note explains. */
export function kindWords(effect: EffectResult, sets: readonly string[]): string {
  if (isCrude(effect)) return "crude";
  return sets.length === 1 ? "adjusted" : `adjusted (${setLetter(sets.indexOf(setWords(effect)))})`;
}
const setLetter = (index: number): string => String.fromCharCode(97 + index);

/** Under the title of a measure: what its adjusted effects are adjusted for; empty where all are crude. */
export function adjustedLine(effects: readonly EffectResult[], sets: readonly string[]): string {
  const own = adjustmentSets(effects);
  return own
    .map(
      (set) => `${sets.length === 1 ? "adjusted" : `adjusted (${setLetter(sets.indexOf(set))})`}: for ${set}`,
    )
    .join("; ");
}

/** Title, subtitle, text alternative and notes of the figure of the differences. */
export function effectsText({ effects: given, plan }: EffectsShown): FigureText {
  const effects = inFigureOrder(given);
  const names = comparedNames(plan);
  const estimates = `estimates with ${intervalName(plan.confidence_level)}s (CI)`;
  return {
    id: "effects",
    title: `Do the groups differ in time to ${milestoneWords[plan.question.milestone].name}?`,
    subtitle: estimates,
    description: [
      `Points and lines of ${estimates}.`,
      ...effects.map((effect) => effectSentence(effect, effectName(effect, names.of))),
    ].join(" "),
    notes: [
      "Open marks: crude; filled marks: adjusted.",
      `Vertical line: no difference. ${undecidedLine}`,
      ...names.notes,
      figureCaution,
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}

/** Without a legend to look at, each sentence says what its estimate is adjusted for. */
function effectSentence(effect: EffectResult, name: string): string {
  const { title } = measureWords[effect.measure];
  const kind = isCrude(effect) ? "crude" : `adjusted for ${setWords(effect)}`;
  const n = `n = ${effect.n.compared} and ${effect.n.reference}`;
  return `${title}, ${name}, ${kind}: ${estimateWords(effect.estimate, unitOf(effect))} (${n}).`;
}
