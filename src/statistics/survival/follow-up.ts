import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import type { Figure } from "../shared/figure.js";
import { checkColumnNames, type NamesOf } from "../shared/options.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { timeToEventNames } from "../shared/time-to-event.js";
import type { CurveOptions } from "./curve.js";
import { productLimit } from "./product-limit.js";
import { type QuantileTime, quantileTime } from "./quantile-time.js";

/**
 * Median follow-up by the reverse product-limit curve: censoring counts as the event, the event as censoring, so that the median
 * is that of how long people could have been followed.
 *
 * @returns `not-reached` where nearly everybody had the event; limits as quantileTime
 * @source Schemper & Smith 1996, Control Clin Trials 17:343
 */
export function followUpMedian(columns: TimeToEvent, options: CurveOptions = {}): QuantileTime {
  checkColumnNames(timeToEventNames, { columns });
  checkSameLength({ name: "events", values: columns.events }, { name: "times", values: columns.times });
  checkColumn({ name: "events", values: columns.events }, "zero or one");
  const reversed = Array.from(columns.events, (event) => 1 - event);
  return quantileTime(productLimit({ ...columns, events: reversed }, options), 0.5);
}

export interface Completeness {
  /** Observed over potential follow-up time, from 0 to 1. */
  readonly share: Figure;
  readonly observed: number;
  readonly potential: number;
}

const completenessOfFollowUpNames: NamesOf<Parameters<typeof completenessOfFollowUp>[0]> = {
  times: true,
  events: true,
  potential: true,
};

/**
 * How much of the follow-up that could have been had was had: person-time observed over person-time possible.
 *
 * Possible is the time to the event for those who had it, and the time to the closing date of data collection for the others.
 *
 * @param columns times and events as in TimeToEvent; potential: time from the record's start to the closing date, in the same unit,
 *   at least as long as `times` (used for the censored only)
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Clark, Altman & De Stavola 2002, Lancet 359:1309
 */
export function completenessOfFollowUp(columns: {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<number>;
  readonly potential: ArrayLike<number>;
}): Completeness {
  checkColumnNames(completenessOfFollowUpNames, { columns });
  const times = { name: "times", values: columns.times };
  const events = { name: "events", values: columns.events };
  const possible = { name: "potential", values: columns.potential };
  checkSameLength(events, times);
  checkSameLength(possible, times);
  checkColumn(times, "not negative");
  checkColumn(events, "zero or one");
  checkColumn(possible, "not negative");
  let observed = 0;
  let potential = 0;
  for (let i = 0; i < columns.times.length; i++) {
    const time = columns.times[i]!;
    const longest = columns.potential[i]!;
    const censored = columns.events[i] === 0;
    if (censored && longest < time)
      throw new ArgumentError({
        argument: "potential",
        index: i,
        expected: `at least times[${i}], which is ${time}`,
        found: longest,
      });
    observed += time;
    potential += censored ? longest : time;
  }
  return {
    share: potential > 0 ? { value: observed / potential } : { value: null, reason: "no-rows" },
    observed,
    potential,
  };
}
