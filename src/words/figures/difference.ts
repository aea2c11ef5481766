import type { Plan } from "../../study/plan.js";
import type { CurveFamily, DifferenceOverTime, Results } from "../../study/results.js";
import { figureCaution, undecidedLine } from "../cautions.js";
import { intervalName } from "../estimates.js";
import { comparisonName } from "../measures.js";
import { plainNumber, pValue } from "../numbers.js";
import { listed } from "../phrases.js";
import { reasonWords } from "../reasons.js";
import { shareBackNote } from "../share-back.js";
import { entryWords, fieldWords, milestoneWords } from "../terms.js";
import { digitsOf, limits } from "../units.js";
import type { FigureText } from "./figure-text.js";
import { comparedNames, drawnText, groupNumber } from "./group-names.js";

/** What the figure of a difference over time is about. */
export interface DifferenceShown {
  readonly difference: DifferenceOverTime;
  /** The curves of the two groups, of which the numbers at risk are told. */
  readonly family: CurveFamily;
  readonly plan: Plan;
}

/** Each pair with the difference that is drawn, which is the adjusted one where there is one, and the curves it is of. */
export function differencesShown({
  differences_over_time: all,
  curves,
}: Pick<Results, "differences_over_time" | "curves">): readonly Omit<DifferenceShown, "plan">[] {
  const shown = all.flatMap((difference) => {
    const { compared, reference, adjusted_for, points } = difference;
    const family = adjusted_for.length > 0 ? "standardised" : "compared";
    const own = curves
      .filter((one) => one.family === family)
      .map((one) => ({
        ...one,
        curves: one.curves.filter(({ label }) => label === compared || label === reference),
      }))
      .find((one) => one.curves.length === 2);
    return own === undefined || points.length === 0 ? [] : [{ difference, family: own }];
  });
  const isAdjusted = ({ difference }: (typeof shown)[number]) => difference.adjusted_for.length > 0;
  return shown.filter(
    (one) =>
      isAdjusted(one) ||
      !shown.some((other) => isAdjusted(other) && other.difference.compared === one.difference.compared),
  );
}

const namesOf = ({ plan }: DifferenceShown) => comparedNames(plan);

export const differenceTitle = (shown: DifferenceShown): string => {
  const { of } = namesOf(shown);
  const { compared, reference } = shown.difference;
  return `share ${milestoneWords[shown.plan.question.milestone].back}, ${of(compared)} less ${of(reference)}, percentage points`;
};

/** What lies above and below the line of no difference. */
export function sidesOf(shown: DifferenceShown): readonly [above: string, below: string] {
  const { of } = namesOf(shown);
  return [`more back: ${of(shown.difference.compared)}`, `more back: ${of(shown.difference.reference)}`];
}

/** Title, subtitle, text alternative and notes of the figure of a difference over time. */
export function differenceText(shown: DifferenceShown): FigureText {
  const { difference, family, plan } = shown;
  const { of, notes } = namesOf(shown);
  const { compared, reference, adjusted_for, strata_used, n } = difference;
  const name = comparisonName(of(compared), of(reference));
  const adjusted = adjusted_for.length > 0 ? `, adjusted for ${listed(fieldWords(adjusted_for))}` : "";
  const interval = intervalName(plan.confidence_level);
  return {
    id: `difference-over-time-${groupNumber(plan, compared)}`,
    title: `How do the shares back differ over time, ${name}${adjusted}?`,
    subtitle: `n = ${n.compared} and ${n.reference}; dark: ${interval} of each day; light: band that holds all days together`,
    description: [
      `Line of the difference in the ${differenceTitle(shown)}, with the ${interval} of each day and a band for all days together.`,
      ...landmarkSentences(shown),
      overallWords(difference),
    ].join(" "),
    notes: [
      overallWords(difference),
      undecidedLine,
      ...(adjusted_for.length > 0
        ? [`Averaged over ${strata_used.map(drawnText).join("; ")}.`]
        : ["Crude, not adjusted."]),
      shareBackNote(plan.question),
      ...(family.entry === "clock" ? [] : [entryWords[family.entry]]),
      ...notes,
      figureCaution,
    ].filter((note) => note !== ""),
    synthetic: plan.synthetic,
    individual: false,
  };
}

/** What the band says of all days together. */
export const overallWords = ({ p, reason }: Pick<DifferenceOverTime, "p" | "reason">): string =>
  p === null
    ? `No band: ${reasonWords(reason)}.`
    : `Test of no difference on any day, by the band: p ${pWords(p)}.`;

const pWords = (p: number): string => {
  const words = pValue(p);
  return /^[<>]/.test(words) ? words : `= ${words}`;
};

function landmarkSentences({ difference: { points }, plan }: DifferenceShown): string[] {
  const found = points.find(({ day }) => day === Math.round(plan.main_landmark_weeks * 7));
  if (found === undefined) return [];
  const { difference, lower, upper, band_lower, band_upper } = found;
  const band =
    band_lower === null || band_upper === null
      ? ""
      : `, band ${limits({ lower: band_lower, upper: band_upper }, "percentage points")}`;
  return [
    `Week ${plainNumber(plan.main_landmark_weeks)}: ${digitsOf(difference, { unit: "percentage points" })} (${limits({ lower, upper }, "percentage points")}${band}).`,
  ];
}
