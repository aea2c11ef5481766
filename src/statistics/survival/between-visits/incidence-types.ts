import type { Reason } from "../../shared/figure.js";
import type { AcceleratedFit } from "../accelerated/accelerated-fit.js";
import type { EndModel } from "./end-model.js";
import type { VisitDifference, VisitFigure } from "./visit-figures.js";

/** What was fitted for an end: see ModelForm; one fit for all groups, or one a group. */
export interface ModelOfEnd extends Omit<EndModel, "pieces"> {
  readonly fits: readonly AcceleratedFit[];
}

export interface VisitShare extends VisitFigure {
  readonly time: number;
}

export interface GroupBetweenVisits {
  readonly group: number;
  /** Rows, and summed weights of those with the end asked about. */
  readonly n: number;
  readonly events: number;
  /** Share with the end by each time, other ends counted as not having it. */
  readonly shares: readonly VisitShare[];
  /** The time by which half of all have had it. */
  readonly median: VisitFigure;
  /** Mean time without it up to the horizon. */
  readonly restrictedMean: VisitFigure;
}

/** A group less another; p of two sides, by the limits of each. */
export interface DifferenceBetweenVisits {
  readonly group: number;
  readonly against: number;
  readonly shares: readonly (VisitDifference & Pick<VisitShare, "time">)[];
  readonly median: VisitDifference;
  readonly restrictedMean: VisitDifference;
}

export interface IncidenceBetweenVisits {
  readonly end: number;
  readonly horizon: number | null;
  /** In order of the ends' codes. */
  readonly models: readonly ModelOfEnd[];
  readonly groups: readonly GroupBetweenVisits[];
  /** Each group less each one before it. */
  readonly differences: readonly DifferenceBetweenVisits[];
  readonly level: number;
  readonly reason: Reason | null;
}
