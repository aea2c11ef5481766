import type { Limits } from "../../statistics/pooling/index.js";
import type { PooledAnswer, PooledFigure } from "./pooled-results.js";

/** The parts of a pooled answer that a way of pooling gives, as they are shown. */
export interface TwoStages
  extends Pick<PooledAnswer, "pooled_by" | "common" | "random" | "paule_mandel" | "heterogeneity"> {
  /** Part of each site in the answer by random effects. */
  readonly weights: readonly number[];
  /** The answer by random effects without each site used, by its place. */
  readonly without: () => readonly (Pick<PooledFigure, "value" | "lower" | "upper"> & {
    readonly site: number;
  })[];
}

/** From the scale of pooling to what readers see. */
export type Shown = (estimate: number | null) => number | null;

export const limitsTold = ({ lower, upper, reason }: Limits, shown: Shown) => ({
  lower: shown(lower),
  upper: shown(upper),
  reason,
});
