import type { Reason } from "../figure.js";
import type { Difference } from "./contrast.js";
import type { TimeToEvent } from "./time-to-event.js";

/** TimeToEvent with the group (0 or 1) and the stratum (a whole number) of each row. */
export interface GroupedInStrata extends TimeToEvent {
  readonly groups: ArrayLike<number>;
  readonly strata: ArrayLike<number>;
}

export interface StandardisedOptions {
  /** Times at which the shares are wanted. Default none. */
  readonly times?: readonly number[];
  /** Horizon of the restricted means; shares are wanted up to it too. */
  readonly horizon: number;
  /** Weight of each stratum by its code, 0 or more; scaled to sum to 1 over those used. Default: its share of the rows used. */
  readonly stratumWeights?: ReadonlyMap<number, number>;
  /** Fewest rows that each group needs in a stratum. Default 5. */
  readonly smallest?: number;
  /** Default 0.95. */
  readonly level?: number;
}

/** A figure standardised over strata; no limits with `no-variance` where its standard error is 0. */
export interface StandardisedValue {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: "no-variance" | null;
}

export interface StandardisedShare {
  readonly time: number;
  /** Share with the event, for group 0 and group 1. */
  readonly returned: readonly [StandardisedValue, StandardisedValue];
  /** Group 1 minus group 0. */
  readonly difference: Difference;
}

export interface StratumUsed {
  readonly stratum: number;
  /** Rows of group 0 and group 1. */
  readonly n: readonly [number, number];
  readonly weight: number;
}

export interface StratumLeftOut {
  readonly stratum: number;
  readonly n: readonly [number, number];
  /** `too-few-rows`: a group below the smallest size; `beyond-follow-up`: a curve that ends before the horizon. */
  readonly reason: "too-few-rows" | "beyond-follow-up";
}

export interface StandardisedCurves {
  readonly used: readonly StratumUsed[];
  readonly leftOut: readonly StratumLeftOut[];
  readonly level: number;
  readonly horizon: number;
  /** One a time asked for, in that order; null where no stratum could be used. */
  readonly shares: readonly StandardisedShare[] | null;
  readonly restrictedMean: {
    readonly groups: readonly [StandardisedValue, StandardisedValue];
    /** Group 1 minus group 0. */
    readonly difference: Difference;
  } | null;
  readonly reason: Reason | null;
}
