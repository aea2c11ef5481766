import { clusterIndex } from "../shared/clusters.js";
import { checkColumnNames, number, type OptionsOf, type Read, readOptions } from "../shared/options.js";
import { type CompetingEvents, checkCauses, competingEventsNames } from "./competing-events.js";
import { countsAndVariance } from "./cumulative-incidence.js";
import { type Curve, curveOf, curveOptions, type VarianceKind } from "./curve.js";
import type { CountsOfCause } from "./incidence-variance.js";
import { sharesOfEvent } from "./prepared-event.js";
import type { TimeCounts } from "./time-counts.js";

export const causeOption = {
  /** Which event: 1, 2, ... Default 1. */
  cause: number("positive count", 1),
};

export const incidenceCurveOptions = { ...curveOptions, ...causeOption };

export interface IncidenceCurveOptions extends OptionsOf<typeof incidenceCurveOptions> {}

/**
 * The cumulative incidence of one cause as a curve like that of productLimit: `notYet` is 1 - F, the share that has not had this event,
 * whoever had another one first counting as without it for ever. All that reads a curve (shareAt, quantileTime, shareDifference,
 * landmarkContrast) takes it.
 *
 * F as cumulativeIncidence estimates it. Variance "greenwood": the delta method, which is Greenwood's without competing ends; "robust", the
 * default with clusters: infinitesimal jackknife summed within clusters. Limits on a scale of 1 - F, as for productLimit, so that without
 * competing ends both are one curve.
 *
 * @param columns causes: whole numbers, 0 = censored; entries for delayed entry
 * @returns an empty curve for no rows; a curve at 1 where nobody had this cause. `complete` where everybody had one event or another: the
 *   curve is then known for ever after, and a share that it has not reached it never will
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Aalen & Johansen 1978, Scand J Stat 5:141
 * @example
 * incidenceCurve({ times: [2, 3, 5, 8], causes: [1, 2, 1, 1] }).notYet // => [0.75, 0.75, 0.5, 0.25]
 */
export function incidenceCurve(columns: CompetingEvents, options: IncidenceCurveOptions = {}): Curve {
  checkColumnNames(competingEventsNames, { columns });
  const asked = readOptions(incidenceCurveOptions, options);
  checkCauses(columns);
  const { cause, variance = columns.clusters ? "robust" : "greenwood" } = asked;
  const { counts, causes, varianceOf } = countsAndVariance(
    columns,
    variance === "robust" ? "robust" : "delta",
  );
  const own = causes.find((one) => one.cause === cause)?.own ?? new Float64Array(counts.events.length);
  const units = variance === "robust" ? clusterIndex(columns).count : counts.n;
  return curveOfCause(
    { counts, own, units, varianceOf: (ofCause) => varianceOf(cause, ofCause) },
    { ...asked, variance },
  );
}

/** The curve of one cause from counts at each time. @param found own: events of the cause in question, of all events of the counts */
export function curveOfCause(
  found: {
    readonly counts: TimeCounts;
    readonly own: Float64Array;
    readonly units: number;
    readonly varianceOf: (ofCause: CountsOfCause) => Float64Array;
  },
  asked: Read<typeof curveOptions> & { readonly variance: VarianceKind },
): Curve {
  const { counts, own, units } = found;
  const { atRisk, events } = counts;
  const competing = own.map((mine, i) => events[i]! - mine);
  const { notYet, eventFree } = sharesOfEvent({ atRisk, events, own, competing });
  const errorsOfLog = found.varianceOf({ atRisk, events, own, eventFree });
  for (let i = 0; i < errorsOfLog.length; i++)
    errorsOfLog[i] = notYet[i]! > 0 ? Math.sqrt(errorsOfLog[i]!) / notYet[i]! : Number.POSITIVE_INFINITY;
  return curveOf({ counts, own, competing, notYet, eventFree, errorsOfLog, units }, asked);
}
