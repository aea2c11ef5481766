import { clusterIndex } from "../shared/clusters.js";
import { checkColumnNames, type NamesOf, type Read, readOptions } from "../shared/options.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { timeToEventNames } from "../shared/time-to-event.js";
import {
  type Curve,
  type CurveOptions,
  type CurveParts,
  curveOf,
  curveOptions,
  type VarianceKind,
} from "./curve.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining, robustVarianceOfLog } from "./robust-variance.js";
import { type TimeCounts, timeCounts } from "./time-counts.js";

/** Standard error of log S by Greenwood's sum; Infinity from where the curve is at 0. */
function greenwoodErrorsOfLog({ atRisk, events }: TimeCounts): Float64Array {
  const errors = new Float64Array(atRisk.length);
  let sum = 0;
  let error = 0;
  for (let i = 0; i < errors.length; i++) {
    const d = events[i]!;
    if (d > 0) {
      const n = atRisk[i]!;
      const left = remaining(n, d);
      sum = left === 0 ? Number.POSITIVE_INFINITY : sum + d / (n * left);
      error = Math.sqrt(sum);
    }
    errors[i] = error;
  }
  return errors;
}

/** Products of (1 - d/n). */
export function sharesNotYet({ atRisk, events }: Pick<TimeCounts, "atRisk" | "events">): number[] {
  const shares = new Array<number>(atRisk.length);
  let share = 1;
  for (let i = 0; i < shares.length; i++) {
    const d = events[i]!;
    const n = atRisk[i]!;
    if (d > 0) share *= remaining(n, d) === 0 ? 0 : 1 - d / n;
    shares[i] = share;
  }
  return shares;
}

type Asked = Read<typeof curveOptions>;

const varianceKind = (columns: TimeToEvent, { variance }: Asked): VarianceKind =>
  variance ?? (columns.weights || columns.clusters ? "robust" : "greenwood");

/**
 * Product-limit estimate of the share without the event, with pointwise intervals.
 *
 * S(t) = product over event times u <= t of (1 - d_u / n_u); those censored at u are still at risk at u.
 * Greenwood: Var log S(t) = sum of d_u / (n_u (n_u - d_u)). Robust: infinitesimal jackknife, summed within clusters, each row its
 * own cluster where none are given; the one to use with fractional weights or several rows a person.
 *
 * @param columns see TimeToEvent
 * @returns an empty curve for no rows; a curve at 1 without events (limits null)
 * @throws ArgumentError naming the column and index of a value at fault, or the level
 * @source Kaplan & Meier 1958, J Am Stat Assoc 53:457; Greenwood 1926, Rep Public Health Med Subj 33:1
 * @example
 * productLimit({ times: [42, 56, 56, 70, 91, 120], events: [1, 1, 0, 1, 0, 1] }).notYet
 * // => [5/6, 2/3, 4/9, 4/9, 0]
 */
export function productLimit(columns: TimeToEvent, options: CurveOptions = {}): Curve {
  checkColumnNames(timeToEventNames, { columns });
  // which row stands where matters to the robust variance only
  const asked = readOptions(curveOptions, options);
  return varianceKind(columns, asked) === "robust"
    ? robustCurve({ columns, riskSets: prepareRiskSets(columns) }, asked)
    : greenwoodCurve(timeCounts(columns), asked);
}

const productLimitOfNames: NamesOf<Parameters<typeof productLimitOf>[0]> = { columns: true, riskSets: true };

/** The same from risk sets already prepared from these columns. */
export function productLimitOf(
  prepared: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  options: CurveOptions = {},
): Curve {
  checkColumnNames(productLimitOfNames, { prepared });
  const asked = readOptions(curveOptions, options);
  return varianceKind(prepared.columns, asked) === "greenwood"
    ? greenwoodCurve(prepared.riskSets, asked)
    : robustCurve(prepared, asked);
}

function robustCurve(
  { columns, riskSets }: { readonly columns: TimeToEvent; readonly riskSets: RiskSets },
  asked: Asked,
): Curve {
  const errorsOfLog = robustVarianceOfLog(riskSets, columns);
  for (let i = 0; i < errorsOfLog.length; i++) errorsOfLog[i] = Math.sqrt(errorsOfLog[i]!);
  const units = clusterIndex(columns).count;
  return curveOfOneEvent({ counts: riskSets, errorsOfLog, units }, { ...asked, variance: "robust" });
}

/** The curve of counts at each time, each row on its own. */
export const greenwoodCurve = (counts: TimeCounts, asked: Asked): Curve =>
  curveOfOneEvent(
    { counts, errorsOfLog: greenwoodErrorsOfLog(counts), units: counts.n },
    { ...asked, variance: "greenwood" },
  );

function curveOfOneEvent(
  { counts, errorsOfLog, units }: Pick<CurveParts, "counts" | "errorsOfLog" | "units">,
  asked: Asked & { readonly variance: VarianceKind },
): Curve {
  const notYet = sharesNotYet(counts);
  return curveOf(
    { counts, own: counts.events, competing: null, notYet, eventFree: notYet, errorsOfLog, units },
    asked,
  );
}
