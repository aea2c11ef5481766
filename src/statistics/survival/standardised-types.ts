import { ArgumentError } from "../shared/arguments.js";
import type { Reason } from "../shared/figure.js";
import {
  checkedBy,
  confidenceLevel,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  shown,
  withDefault,
} from "../shared/options.js";
import { type TimeToEvent, timeToEventNames } from "../shared/time-to-event.js";
import { type CompetingEvents, competingEventsNames } from "./competing-events.js";
import type { Difference } from "./contrast.js";
import { causeOption } from "./incidence-curve.js";

/** The group (0 or 1) and the stratum (a whole number) of each row. */
interface GroupAndStratum {
  readonly groups: ArrayLike<number>;
  readonly strata: ArrayLike<number>;
}

export interface EventsInStrata extends TimeToEvent, GroupAndStratum {}

export interface CausesInStrata extends CompetingEvents, GroupAndStratum {}

/** Rows by group and stratum: `events`, or `causes` where competing ends are told apart from ends of follow-up. */
export type GroupedInStrata = EventsInStrata | CausesInStrata;

const groupAndStratumNames = { groups: true, strata: true } as const;

export const eventsInStrataNames: NamesOf<EventsInStrata> = { ...groupAndStratumNames, ...timeToEventNames };

export const causesInStrataNames: NamesOf<CausesInStrata> = {
  ...groupAndStratumNames,
  ...competingEventsNames,
};

const stratumWeights = checkedBy<ReadonlyMap<number, number>>((value, name) => {
  if (!(value instanceof Map))
    throw new ArgumentError({
      argument: name,
      index: null,
      expected: "a Map from stratum to weight",
      found: shown(value),
    });
});

/** Which strata are used, and how they weigh. */
export const strataOptions = {
  /** Horizon of the restricted means; shares are wanted up to it too. */
  horizon: needed(number("positive")),
  /** Weight of each stratum by its code, 0 or more; scaled to sum to 1 over those used. Default: its share of the rows used. */
  stratumWeights,
  /** Fewest rows that each group needs in a stratum. Default 5. */
  smallest: number("count", 5),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Where the columns hold causes. Default 1. */
  ...causeOption,
};

export const standardisedOptions = {
  /** Times at which the shares are wanted. Default none. */
  times: withDefault(list<readonly number[]>(), []),
  ...strataOptions,
};

export interface StandardisedOptions extends OptionsOf<typeof standardisedOptions> {}

/** A figure standardised over strata. A share has always limits; a mean none where its error is 0 or its rows are too few. */
export interface StandardisedValue {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
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
  /** `too-few-rows`: a group below the smallest size; `beyond-follow-up`: a curve that ends before the horizon while somebody might still have the event. */
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
