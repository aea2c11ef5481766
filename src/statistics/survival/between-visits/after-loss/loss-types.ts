import type { Reason } from "../../../shared/figure.js";
import type { Tipping } from "../../after-loss/tipping.js";
import type { VisitColumns } from "../columns.js";
import type { VisitFigure } from "../visit-figures.js";

/** Who of the rows was lost, and within what losses are counted. */
export interface LossBetweenVisits {
  /** 1 where follow-up was broken off, never where an end came; 0 where it ended because the data were closed. */
  readonly lost: ArrayLike<number>;
  /** Whole numbers: chances of loss are those of each group within each cell. Left out: of each group. */
  readonly cells?: ArrayLike<number>;
}

/** Rows as VisitColumns has them, with who was lost. */
export interface VisitsWithLoss extends VisitColumns, LossBetweenVisits {}

/** What is asked of models that were fitted. */
export interface Suppositions {
  readonly time: number;
  readonly factors: readonly number[];
  readonly line: number;
}

/** A figure where the hazard of those lost is multiplied by a factor. */
export interface FigureAtFactor extends VisitFigure {
  readonly factor: number;
}

/** The share of one group under each supposition. */
export interface ShareAfterVisits {
  readonly group: number;
  readonly n: number;
  /** Lost before the time. */
  readonly lost: number;
  /** None of the lost has the end by the time; all of them have it. */
  readonly none: VisitFigure;
  readonly all: VisitFigure;
  readonly points: readonly FigureAtFactor[];
  /** By what factor the share comes to the other side of the line; null where nobody was lost, or no share is known. */
  readonly crossing: Tipping | null;
}

/** One group less another; factors are those of the first, the other has their inverses. */
export interface DifferenceAfterVisits {
  readonly group: number;
  readonly against: number;
  /** Lost before the time, of each. */
  readonly lost: { readonly group: number; readonly against: number };
  readonly lowest: VisitFigure;
  readonly highest: VisitFigure;
  readonly points: readonly FigureAtFactor[];
  /** By what factor the interval comes to hold 0, or leaves it; null where nobody was lost, or there is no interval. */
  readonly tipping: Tipping | null;
}

export interface IncidenceAfterLoss {
  readonly time: number;
  readonly end: number;
  readonly groups: readonly ShareAfterVisits[];
  /** Each group less each one before it. */
  readonly differences: readonly DifferenceAfterVisits[];
  readonly reason: Reason | null;
}
