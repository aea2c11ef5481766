import type { PooledAnswer, PooledReason } from "../../pooling/pooled/index.js";
import type { SummaryFigure } from "../../pooling/summary/index.js";
import type { Plan } from "../../study/plan.js";
import { groupWords } from "../group-phrases.js";
import { listed } from "../phrases.js";
import { reasons } from "../reasons.js";
import { competingPast, fieldWords, groupName, labelOf, milestoneWords } from "../terms.js";
import { weeks } from "../times.js";
import type { Unit } from "../units.js";

type Asked = Pick<Plan, "question" | "compare" | "horizon_weeks">;
type Named = Pick<PooledAnswer, "of" | "family" | "label" | "compared" | "reference" | "adjusted_for">;

/** The injuries that an answer is about, after "of": "all injuries", "injuries of grade 3". */
export function pooledGroupWords(
  { family, label }: Pick<Named, "family" | "label">,
  { compare }: Asked,
): string {
  if (family === "all" || label === null) return "all injuries";
  return `injuries ${groupWords({ by: family === "grade" ? "grade" : compare.by, label }).of}`;
}

/** Two groups set against each other, as a heading: "ring less tape, grade held equal". */
export function pooledComparisonWords(answer: Named, { compare }: Asked): string {
  const name = (label: string | null) => groupName(label ?? "", compare.by);
  const held =
    answer.adjusted_for.length === 0
      ? "as they are"
      : `${listed(fieldWords(answer.adjusted_for))} held equal`;
  return `${name(answer.compared)} less ${name(answer.reference)}, ${held}`;
}

/** What is measured, as a heading: "back to full climbing by 13 weeks". */
export function pooledMeasureWords(
  { measure, end, week }: Pick<PooledAnswer, "measure" | "end" | "week">,
  { question, horizon_weeks }: Asked,
): string {
  const { back } = milestoneWords[question.milestone];
  if (measure === "mean_days") return `mean days not ${back} within ${weeks(horizon_weeks)}`;
  if (measure === "other_end" && end !== null) return `${competingPast(end)} by ${weeks(week ?? 0)}`;
  return `${back} by ${weeks(week ?? 0)}`;
}

/** The unit in which a figure is shown; a difference of shares is in points. */
export function pooledUnit({ measure, of }: Pick<PooledAnswer, "measure" | "of">): Unit {
  if (measure === "mean_days") return of === "group" ? "time" : "days";
  return of === "group" ? "share" : "percentage points";
}

/** Why a figure is not there, to stand in a cell. */
const ownReasons: Readonly<Record<Exclude<PooledReason, keyof typeof reasons>, string>> = {
  "few-people": "held back at the site: too few people",
  "by-subtraction": "held back at the site: others could be found by subtraction",
  "all-alike": "held back at the site: in a small group all are back, or none",
  "no-estimate": "no estimate",
  "not-finite": "no finite estimate",
  "too-few-sites": "too few sites",
  "closer-than-chance": "the sites lie closer together than their errors allow",
  "not-in-summary": "not in the summary",
  tied: "not tested: a share and its error are tied to each other by the counts",
};

/** A reason of a pooled figure, or of a figure of a site. */
export const pooledReasonWords = (reason: PooledReason | SummaryFigure["reason"]): string =>
  reason === null
    ? "not available"
    : Object.hasOwn(ownReasons, reason)
      ? ownReasons[reason as keyof typeof ownReasons]
      : reasons[reason as keyof typeof reasons];

/** The name of a group in a table. */
export const pooledGroupName = (
  { family, label }: { readonly family: string | null; readonly label: string | null },
  by: string,
): string =>
  family === "all" || label === null
    ? "all injuries"
    : family === "grade"
      ? `grade ${labelOf(label)}`
      : groupName(label, by);
