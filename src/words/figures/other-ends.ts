import { counted } from "../../schema/counted.js";
import type { Plan } from "../../study/plan.js";
import type { CurveFamily, CurveResult, OtherEnd } from "../../study/results.js";
import { figureCaution } from "../cautions.js";
import { returnedOf, sumOf } from "../counts.js";
import { estimateWords, intervalName } from "../estimates.js";
import { plainNumber } from "../numbers.js";
import { listed } from "../phrases.js";
import { shareBackNote } from "../share-back.js";
import { competingNoun, competingPast, entryWords } from "../terms.js";
import type { FigureText } from "./figure-text.js";
import { type CurvesShown, curveNames, familyPhrase, shareTitle, timeTitle } from "./return-curves.js";

export type End = OtherEnd["end"];

/** The family whose other ends are drawn: the groups compared where somebody in them came to one, else everybody, or each definition of the return; none where nobody did. */
export function familyWithOtherEnds(families: readonly CurveFamily[]): readonly CurveFamily[] {
  const found = (["compared", "all", "definition"] as const)
    .flatMap((wanted) => families.filter(({ family }) => family === wanted))
    .find(({ curves }) => curves.some(({ other_ends }) => other_ends.length > 0));
  return found === undefined ? [] : [found];
}

/** The ends that occurred in any of the curves, in the order of the question. */
export const endsShown = ({ family, plan }: CurvesShown): readonly End[] =>
  plan.question.competing_ends.filter((end) =>
    family.curves.some(({ other_ends }) => other_ends.some((one) => one.end === end)),
  );

/** Above the panel of an end: what it shows. */
export const shortEndTitle = (end: End): string => `share that ${competingPast(end)} before being back`;

/** The same with how many came to it. */
export function endTitle(end: End, shown: CurvesShown): string {
  const names = curveNames(shown.family, shown.plan);
  const counts = shown.family.curves.map(
    (curve) => `${names.of(curve)} ${endCount(curve, end)} of ${curve.n}`,
  );
  return `${shortEndTitle(end)} (${counts.join(", ")})`;
}

const endCount = ({ other_ends }: CurveResult, end: End) => other_ends.find((one) => one.end === end)?.n ?? 0;

/** Title, subtitle, text alternative and notes of the figure of the competing ends beside the return. */
export function otherEndsText(shown: CurvesShown): FigureText {
  const { family, plan } = shown;
  const ends = endsShown(shown);
  const names = curveNames(family, plan);
  const n = sumOf(family.curves.map((curve) => curve.n));
  const returned = sumOf(family.curves.map(({ events }) => events));
  const interval = intervalName(plan.confidence_level);
  return {
    id: `other-ends-${family.family}`,
    title: `How many came to another end than a return${familyPhrase(family, plan)}?`,
    subtitle: `${counted(n, "injury", "injuries")}, ${returnedOf(returned)}; shaded: ${interval} (CI)`,
    description: [
      `Curves of the ${shareTitle(plan)} and, each in a panel of its own, of the shares that came to another end (${listed(ends.map(competingNoun))}), by ${timeTitle(plan)}, with ${interval}s.`,
      ...ends.map(
        (end) =>
          `${endTitle(end, shown)}: ${family.curves.map((curve) => `${names.of(curve)} ${atMainLandmark(curve, { end, plan })}`).join("; ")}.`,
      ),
    ].join(" "),
    notes: [
      ends.length === 1
        ? "The lower panel has a scale of its own."
        : "The lower panels have one scale, which is not that of the return.",
      shareBackNote(plan.question),
      ...(family.entry === "clock" ? [] : [entryWords[family.entry]]),
      ...names.notes,
      figureCaution,
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}

function atMainLandmark(
  { other_ends }: CurveResult,
  { end, plan }: { readonly end: End; readonly plan: Plan },
): string {
  const own = other_ends.find((one) => one.end === end);
  const landmark = own?.landmarks.find(({ week }) => week === plan.main_landmark_weeks);
  if (own === undefined) return "nobody";
  if (landmark === undefined) return `${own.n} in all`;
  return `by week ${plainNumber(landmark.week)}, per cent: ${landmark.share.reason === "no-events" ? "none" : estimateWords(landmark.share, "share")}`;
}
