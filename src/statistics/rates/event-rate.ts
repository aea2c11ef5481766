import { checkNumber } from "../shared/arguments.js";
import { chiSquareQuantile } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  type LevelOption,
  levelOption,
  type NamesOf,
  readOptions,
} from "../shared/options.js";

/** Events, and the time in which they could have come, summed over all who were followed. */
export interface EventCount {
  /** 0 or more; an effective number, as clusteredRate gives, may have a fraction. */
  readonly events: number;
  /** 0 or more, in any unit: the rate is per that unit. */
  readonly personTime: number;
}

export const eventCountNames: NamesOf<EventCount> = { events: true, personTime: true };

/** Events per unit of person-time. */
export interface EventRate {
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly events: number;
  readonly personTime: number;
  readonly level: number;
  readonly reason: Reason | null;
}

/** @throws ArgumentError naming the count that is negative or no number, after the group it is of */
export function checkEventCount({ events, personTime }: EventCount, of = ""): void {
  checkNumber({ name: `${of}events`, value: events }, "not negative");
  checkNumber({ name: `${of}personTime`, value: personTime }, "not negative");
}

/** Garwood's limits of the mean of a count. The upper tail is that of a chi-square with two more degrees of freedom. */
export function limitsOfCount(events: number, level: number): readonly [number, number] {
  const tail = (1 - level) / 2;
  return [
    events === 0 ? 0 : chiSquareQuantile(tail, 2 * events) / 2,
    chiSquareQuantile(1 - tail, 2 * events + 2) / 2,
  ];
}

/**
 * Events per person-time with exact limits: those rates under which as many events or more, and as few or fewer, have half the error as
 * probability.
 *
 * They hold where events come independently at a constant rate. Where one person may have several, or several fingers, see clusteredRate.
 *
 * @param count events: 0 or more; personTime: in the unit that the rate is to be per
 * @returns nulls with `no-rows` where no time was followed
 * @throws ArgumentError for a negative count, or the level
 * @source Garwood 1936, Biometrika 28:437
 * @example
 * eventRate({ events: 0, personTime: 30 }).upper // => 0.12296264847046451
 */
export function eventRate(count: EventCount, options: LevelOption = {}): EventRate {
  checkColumnNames(eventCountNames, { count });
  const { level } = readOptions(levelOption, options);
  checkEventCount(count);
  const { events, personTime } = count;
  const common = { events, personTime, level };
  if (personTime === 0) return { ...common, estimate: null, lower: null, upper: null, reason: "no-rows" };
  const [lower, upper] = limitsOfCount(events, level);
  return {
    ...common,
    estimate: events / personTime,
    lower: lower / personTime,
    upper: upper / personTime,
    reason: null,
  };
}
