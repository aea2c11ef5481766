import { counted } from "../schema/counted.js";
import type { Plan } from "../study/plan.js";
import type { LossDifference, LossShare, Results } from "../study/results.js";
import { adjustmentClause } from "./adjustment.js";
import { sumOf } from "./counts.js";
import { groupWords } from "./group-phrases.js";
import { plainNumber, share } from "./numbers.js";
import { reasonWords } from "./reasons.js";
import { weeks } from "./times.js";
import { digitsOf } from "./units.js";

type LossBounds = NonNullable<Results["loss_bounds"]>;

/** What is asked of every figure in this part of a report. */
export const lossQuestion =
  "Estimates take those lost to follow-up to be like those still followed. The worst and the best case suppose that none, or all, of those lost were back. Between them, the rate of return of those lost is multiplied by a factor from the day of their loss on: 1 is the estimate, 2 twice the rate of those still followed, 1/2 half of it. In a difference the factor of the reference group is the inverse, so that the two groups are unlike in opposite ways.";

/** What stays as it is where a model of spans says when the returns came; empty where each return stands on one day. */
export const lossUnderModel = ({ known_returns }: Pick<Results, "known_returns">): string =>
  known_returns.path === "spans"
    ? "The model of the returns stays as it was fitted, with those lost as last seen: its law, what it says of those still followed and of other ends. Only those lost are counted otherwise."
    : "";

/** A factor in a sentence: "0.41 times". */
export const timesWords = (factor: number): string => `${plainNumber(factor, factor < 0.1 ? 3 : 2)} times`;

/** "between 7 and 20 percentage points more", "between 9 percentage points fewer and 3 more". */
function spanWords(lowest: number, highest: number): string {
  const unit = "percentage points";
  const digits = (value: number) => digitsOf(Math.abs(value), { unit });
  const way = (value: number) => (value < 0 ? "fewer" : "more");
  const ways = new Set([lowest, highest].filter((value) => digits(value) !== "0").map(way));
  if (ways.size > 1) return `between ${digits(lowest)} ${unit} fewer and ${digits(highest)} more`;
  // of two that are fewer the lowest is the larger number
  const sizes = [lowest, highest].toSorted((one, other) => Math.abs(one) - Math.abs(other));
  return `between ${sizes.map(digits).join(" and ")} ${unit} ${[...ways][0] ?? "more"}`;
}

interface Asked {
  readonly plan: Plan;
  readonly bounds: LossBounds;
}

/** In one line how far loss could move a difference, and what it would take to change what is concluded. */
export function lossOfDifference(difference: LossDifference, { plan, bounds }: Asked): string {
  const { by } = plan.compare;
  const [compared, reference] = [difference.compared, difference.reference].map((label) =>
    groupWords({ by, label }),
  );
  const before = weeks(bounds.week);
  const held = adjustmentClause(difference.adjusted_for);
  const { lowest, highest, lost, as_followed } = difference;
  if (as_followed.value === null && (lowest.value === null || highest.value === null))
    return `How far loss could move the difference ${compared!.among} less ${reference!.among}, ${held}, cannot be given: ${reasonWords(as_followed.reason)}.`;
  if (sumOf([lost.compared, lost.reference]) === 0)
    return `Nobody that the difference between injuries ${compared!.of} and ${reference!.of} rests on, ${held}, was lost to follow-up before ${before}.`;
  return (
    `Before ${before}, ${counted(lost.compared as number, "injury", "injuries")} ${compared!.among} and ${lost.reference} ${reference!.among} were lost to follow-up: ` +
    `whatever became of them, ${held}, ${spanWords(lowest.value!, highest.value!)} were back ${compared!.among} than ${reference!.among}.` +
    tippingWords(difference, { plan, bounds })
  );
}

function tippingWords({ tipping, compared, reference }: LossDifference, { plan, bounds }: Asked): string {
  if (tipping === null) return "";
  const { from, factor, holds_at_bounds } = tipping;
  const change = from === "across" ? "exclude no difference" : "include no difference";
  if (holds_at_bounds)
    return ` Even in these extremes the interval ${from === "across" ? "includes" : "excludes"} no difference, as that of the estimate does.`;
  if (factor === null)
    return ` The interval comes to ${change} only towards these extremes, and at no rate from 1/${bounds.widest_factor} to ${bounds.widest_factor} times that of those still followed.`;
  const among = (label: string) => groupWords({ by: plan.compare.by, label }).among;
  return ` The interval would come to ${change} if, from their loss on, those lost ${among(compared)} returned at ${timesWords(factor)} and those lost ${among(reference)} at ${timesWords(1 / factor)} the rate of those still followed.`;
}

/** In one line how far loss could move a share. */
export function lossOfShare(one: LossShare, { plan, bounds }: Asked): string {
  const { by } = plan.compare;
  const whom = one.family === "all" ? "counted here" : groupWords({ by, label: one.label }).of;
  const before = weeks(bounds.week);
  const { none_back, all_back, lost } = one;
  if (none_back.value === null || all_back.value === null)
    return `How far loss could move the share back of the injuries ${whom} cannot be given: ${reasonWords(none_back.reason ?? all_back.reason)}.`;
  if (lost === 0) return `None of the injuries ${whom} was lost to follow-up before ${before}.`;
  return `Of the injuries ${whom}, ${lost} ${lost === 1 ? "was" : "were"} lost to follow-up before ${before}: whatever became of them, the share back is between ${share(none_back.value)} and ${share(all_back.value)}.${crossingWords(one, bounds)}`;
}

function crossingWords({ line: crossing }: LossShare, { line, widest_factor }: LossBounds): string {
  if (crossing === null) return "";
  const { from, factor, holds_at_bounds } = crossing;
  const side = from === "below" ? "above" : "below";
  if (holds_at_bounds) return ` Even in these extremes it stays ${from} ${share(line)}.`;
  if (factor === null)
    return ` It comes ${side} ${share(line)} only towards these extremes, and at no rate from 1/${widest_factor} to ${widest_factor} times that of those still followed.`;
  return ` It would come ${side} ${share(line)} if those lost returned at ${timesWords(factor)} the rate of those still followed.`;
}

/** What it takes for a figure to change, in a cell. */
export function factorCell(tipping: LossDifference["tipping"]): string {
  if (tipping === null) return "nobody lost";
  const { factor, holds_at_bounds } = tipping;
  if (factor !== null) return timesWords(factor);
  return holds_at_bounds ? "none: it holds in both extremes" : "only towards the extremes";
}
