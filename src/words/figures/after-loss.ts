import type { Plan } from "../../study/plan.js";
import type { Estimate, LossDifference, LossShare, Results } from "../../study/results.js";
import { adjustmentClause } from "../adjustment.js";
import { lossOfDifference, lossOfShare } from "../after-loss.js";
import { figureCaution, undecidedLine } from "../cautions.js";
import { intervalName } from "../estimates.js";
import { groupWords } from "../group-phrases.js";
import { milestoneWords } from "../terms.js";
import { weeks } from "../times.js";
import type { FigureText } from "./figure-text.js";
import { comparedNames, groupNumber } from "./group-names.js";

/** A difference of two groups, or the share of everybody, under what is supposed of those lost. */
export interface AfterLossShown {
  readonly plan: Plan;
  readonly bounds: NonNullable<Results["loss_bounds"]>;
  readonly shown: LossDifference | LossShare;
}

export const isDifference = (shown: AfterLossShown["shown"]): shown is LossDifference => "reference" in shown;

/** The figure in its worst case, at each factor, and in its best. */
export function figuresAlong({ shown }: AfterLossShown): {
  readonly worst: Estimate;
  readonly points: LossShare["points"];
  readonly best: Estimate;
} {
  return isDifference(shown)
    ? { worst: shown.lowest, points: shown.points, best: shown.highest }
    : { worst: shown.none_back, points: shown.points, best: shown.all_back };
}

/** At either end. */
export const extremes = ["worst case", "best case"] as const;

/** What is supposed there. */
function extremeNote({ shown, plan }: AfterLossShown): string {
  if (!isDifference(shown)) return "Worst case: none of those lost is back; best case: all of them.";
  const among = (label: string) => groupWords({ by: plan.compare.by, label }).among;
  return `Worst case: none of those lost ${among(shown.compared)} is back, and all of those lost ${among(shown.reference)}; best case: the other way about.`;
}

/** Over the values. */
export function valueTitle({ shown, plan }: AfterLossShown): string {
  const { back } = milestoneWords[plan.question.milestone];
  if (!isDifference(shown)) return `share ${back}`;
  const { of } = comparedNames(plan);
  return `difference in the share ${back}, ${of(shown.compared)} less ${of(shown.reference)}, percentage points`;
}

/** Under the factors. */
export function factorTitle({ shown, plan }: AfterLossShown): string {
  if (!isDifference(shown)) return "rate of return of those lost, times that of those still followed";
  const { of } = comparedNames(plan);
  return `rate of return of those lost, times that of those still followed (${of(shown.compared)}; ${of(shown.reference)}: the inverse)`;
}

/** Title, subtitle, text alternative and notes of the figure of a main figure after loss to follow-up. */
export function afterLossText(data: AfterLossShown): FigureText {
  const { shown, plan, bounds } = data;
  const { by } = plan.compare;
  const held = isDifference(shown) ? `, ${adjustmentClause(shown.adjusted_for)}` : "";
  const pair = isDifference(shown) ? groupNumber(plan, shown.compared) : 0;
  const whom = isDifference(shown)
    ? `${groupWords({ by, label: shown.compared }).among} and ${groupWords({ by, label: shown.reference }).among}`
    : "among all";
  return {
    id: isDifference(shown) ? `after-loss-${pair}` : "after-loss",
    title: "How far could those lost to follow-up change the answer?",
    subtitle: `Injuries ${whom}, by ${weeks(bounds.week)}${held}; with ${intervalName(plan.confidence_level)}s`,
    description: isDifference(shown)
      ? lossOfDifference(shown, { plan, bounds })
      : lossOfShare(shown, { plan, bounds }),
    notes: [
      `Line and band: those lost return at a multiple of the rate of those still followed; at 1 they are like them, which is the estimate of this report (mark).`,
      extremeNote(data),
      ...(isDifference(shown) ? [undecidedLine] : []),
      ...comparedNames(plan).notes,
      figureCaution,
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}
