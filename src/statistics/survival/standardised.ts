import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { checkColumnNames, type Read, readOptions } from "../shared/options.js";
import { checkTimeToEvent } from "../shared/time-to-event.js";
import { checkCauses } from "./competing-events.js";
import { standardisedMeans } from "./standardised-means.js";
import { standardisedShare } from "./standardised-shares.js";
import type {
  CausesInStrata,
  GroupedInStrata,
  StandardisedCurves,
  StandardisedOptions,
} from "./standardised-types.js";
import { causesInStrataNames, eventsInStrataNames, standardisedOptions } from "./standardised-types.js";
import { checkGroupsAndStrata, strataToUse } from "./strata-to-use.js";

const holdsCauses = (columns: GroupedInStrata): columns is CausesInStrata => "causes" in Object(columns);

function checkEvents(columns: GroupedInStrata): void {
  if (!holdsCauses(columns)) {
    checkColumnNames(eventsInStrataNames, { columns });
    checkTimeToEvent(columns);
    return;
  }
  checkColumnNames(causesInStrataNames, { columns });
  checkCauses(columns);
  checkTimeToEvent({ ...columns, events: new Uint8Array(columns.times.length) });
}

/** @throws ArgumentError naming the column and index of a value at fault, or the option */
export function checkStandardised(
  columns: GroupedInStrata,
  options: Pick<Read<typeof standardisedOptions>, "times" | "horizon" | "stratumWeights">,
): void {
  checkEvents(columns);
  checkGroupsAndStrata(columns);
  options.times.forEach((time, i) => {
    if (!(Number.isFinite(time) && time >= 0 && time <= options.horizon))
      throw new ArgumentError({
        argument: "times",
        index: i,
        expected: `between 0 and the horizon, which is ${options.horizon}`,
        found: time,
      });
  });
  for (const weight of options.stratumWeights?.values() ?? [])
    checkNumber({ name: "stratumWeights", value: weight }, "not negative");
}

/**
 * Shares and restricted means of two groups, standardised to one mix of strata (direct standardisation), and their differences.
 *
 * In each stratum and group a product-limit curve or, where the columns hold causes, the cumulative incidence of one beside the others (as
 * incidenceCurve and restrictedIncidenceMean estimate it); over strata the weighted mean. Variance: sum of w^2 times the variance within, the
 * weights being taken as fixed numbers. With `weights` or `clusters` in the columns the variance is the robust one, clusters being
 * summed across strata and groups, so that somebody with a finger in each group counts once.
 *
 * Shares have always limits, within 0 to 1: recovered from the score limits of each stratum on its effective size (as shareDifference takes it), divided by
 * what clusters inflate the variance; differences by recovery from those of the groups, with their correlation where somebody is in both, within
 * -1 to 1, z and p being those at which the interval touches 0. Restricted means have those of meanTimeInterval, a curve counted for each stratum;
 * their difference the normal ones.
 *
 * Left out and listed: strata where either group has fewer than `smallest` rows, or where either curve ends before the horizon while
 * somebody might still have the event.
 * None left: null, `no-overlap`. Nothing is carried past follow-up.
 *
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source direct standardisation of product-limit curves: Makuch 1982, J Chronic Dis 35:437; Zucker 1998, J Am Stat Assoc 93:702
 *   (restricted means); limits of shares: Yan & Su 2010, Stat Biopharm Res 2:329; Zou & Donner 2008, Stat Med 27:1693
 */
export function standardisedCurves(
  columns: GroupedInStrata,
  options: StandardisedOptions,
): StandardisedCurves {
  const asked = readOptions(standardisedOptions, options);
  checkStandardised(columns, asked);
  const { horizon, level, times } = asked;
  const { used, leftOut, input, reason } = strataToUse(columns, asked);
  if (input === null) return { used, leftOut, level, horizon, shares: null, restrictedMean: null, reason };
  return {
    used,
    leftOut,
    level,
    horizon,
    shares: times.map((time) => standardisedShare(input, { time, level })),
    restrictedMean: standardisedMeans(input, { horizon, level }),
    reason: null,
  };
}
