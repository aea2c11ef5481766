import type { OutcomeRecord } from "../cohort/record.js";
import type { Tipping } from "../statistics/survival/after-loss/index.js";
import type { ExactResults } from "./exact-results.js";
import { possibleDays } from "./follow-up.js";
import type { Specification } from "./specification.js";

type LossBounds = NonNullable<ExactResults["loss_bounds"]>;

/** A share under what is supposed of those lost, its family apart. */
export type ShareAfterLossRow = Omit<LossBounds["shares"][number], "family">;
export type DifferenceAfterLossRow = LossBounds["differences"][number];

/** Factors of the figure: each with its inverse. */
export const factors = [
  1 / 8,
  1 / 6,
  1 / 5,
  1 / 4,
  1 / 3,
  1 / 2,
  2 / 3,
  4 / 5,
  1,
  5 / 4,
  3 / 2,
  2,
  3,
  4,
  5,
  6,
  8,
];

/** A share crosses it where more are back than not. */
export const line = 0.5;

/** The day of the main landmark, and what else says who was lost before it. */
export interface LossAsked
  extends Pick<Specification, "comparison" | "horizonDay" | "level" | "shareBack" | "question"> {
  readonly day: number;
}

/** Lost before a day, and before the data were closed: what became of them by then is not known. */
export const isLostBefore =
  ({ day: horizonDay, question }: Pick<LossAsked, "day" | "question">) =>
  (record: OutcomeRecord): boolean =>
    record.end === "censored" && record.time < possibleDays(record, { horizonDay, question });

const sides = { "-1": "below", "0": "across", "1": "above" } as const;

/** What it takes for a figure to change, as it is told. */
export function tippingTold(found: Tipping | null): DifferenceAfterLossRow["tipping"] {
  if (found === null) return null;
  const { from, to, factor, holdsAtBounds } = found;
  return { from: sides[from], to: to === null ? null : sides[to], factor, holds_at_bounds: holdsAtBounds };
}
