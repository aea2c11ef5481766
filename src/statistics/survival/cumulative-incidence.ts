import { checkColumn, checkSameLength } from "../arguments.js";
import { indexOfCodes } from "../comparison/counts-by-group.js";
import { normalCritical } from "../distributions.js";
import { robustVarianceOfIncidence } from "./clustered-incidence.js";
import { limitsOfShare } from "./curve-intervals.js";
import { aalenVariance, type CountsOfCause, deltaVariance } from "./incidence-variance.js";
import { sharesNotYet } from "./product-limit.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";

/** One row a record: cause 0 where follow-up ended without any event, else 1, 2, ... for the event that came first. */
export interface CompetingEvents {
  readonly times: ArrayLike<number>;
  readonly causes: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
}

export interface IncidenceOptions {
  /** Default 0.95. */
  readonly level?: number;
  /**
   * Default "robust" (summed within clusters) where there are clusters, else "delta"; "aalen" is slightly larger, and the one that goes
   * with Gray's test.
   */
  readonly variance?: IncidenceVariance;
}

export type IncidenceVariance = "delta" | "aalen" | "robust";

export interface CauseIncidence {
  readonly cause: number;
  readonly events: readonly number[];
  readonly incidence: readonly number[];
  readonly standardError: readonly number[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
}

/** One entry a different time, ascending; `causes` in ascending order of the cause's number. */
export interface CumulativeIncidence {
  readonly times: readonly number[];
  readonly atRisk: readonly number[];
  /** All causes together. */
  readonly events: readonly number[];
  readonly censored: readonly number[];
  /** Share without any event after each time; 1 less the incidences of all causes. */
  readonly eventFree: readonly number[];
  readonly causes: readonly CauseIncidence[];
  readonly level: number;
  readonly variance: IncidenceVariance;
  readonly n: number;
  readonly total: number;
  readonly lastTime: number | null;
  readonly entered: { readonly times: readonly number[]; readonly total: readonly number[] } | null;
}

/** Events of each cause at each time, causes ascending. */
function eventsByCause(
  code: ArrayLike<number>,
  riskSets: RiskSets,
): { readonly cause: number; readonly own: Float64Array }[] {
  const { codes, index } = indexOfCodes(code);
  const counts = codes.map(() => new Float64Array(riskSets.times.length));
  for (let row = 0; row < index.length; row++)
    (counts[index[row] as number] as Float64Array)[riskSets.rowTime[row] as number]!++;
  return codes
    .map((cause, at) => ({ cause, own: counts[at] as Float64Array }))
    .filter(({ cause }) => cause > 0);
}

/** F after each time. */
function incidenceOf({ atRisk, own, eventFree }: CountsOfCause): number[] {
  let risen = 0;
  return Array.from(own, (d, at) => {
    risen += ((at === 0 ? 1 : (eventFree[at - 1] as number)) * d) / (atRisk[at] as number);
    return risen;
  });
}

function checkCauses(columns: CompetingEvents): void {
  const causes = { name: "causes", values: columns.causes };
  checkSameLength(causes, { name: "times", values: columns.times });
  checkColumn(causes, "count");
}

/** The log-log scale of F itself; on 1 - F the interval would be another. */
function limitsOfIncidence(point: { share: number; error: number }, z: number) {
  return limitsOfShare(
    { share: point.share, errorOfLog: point.error / point.share },
    { scale: "log-log", z },
  );
}

/**
 * Cumulative incidence of each of several competing events (Aalen-Johansen): the share that has had that event, others that come
 * first being possible.
 *
 * F_k(t) = sum over u <= t of S(u-) d_ku / n_u, S being the share without any event. Variance: delta method (Greenwood type), or
 * Aalen's, see incidence-variance.ts; robust: infinitesimal jackknife summed within clusters, see clustered-incidence.ts.
 * Interval: F^exp(-+ z SE / (F log F)), the log-log scale; null where F is 0 or 1, or its rows cancel within their clusters.
 *
 * @param columns causes: whole numbers, 0 = censored
 * @returns no causes and no times for no rows; with all censored, no causes
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Aalen & Johansen 1978, Scand J Stat 5:141; variances: Marubini & Valsecchi 1995, Analysing Survival Data; Aalen 1978, Ann Stat
 *   6:534; log-log: Choudhury 2002, Stat Med 21:1129
 */
export function cumulativeIncidence(
  columns: CompetingEvents,
  options: IncidenceOptions = {},
): CumulativeIncidence {
  const { level = 0.95, variance = columns.clusters ? "robust" : "delta" } = options;
  const z = normalCritical(level);
  checkCauses(columns);
  const { causes: code, ...rest } = columns;
  const events = new Uint8Array(code.length);
  for (let row = 0; row < code.length; row++) events[row] = (code[row] as number) > 0 ? 1 : 0;
  const riskSets = prepareRiskSets({ ...rest, events });
  const eventFree = sharesNotYet(riskSets);
  const causes = eventsByCause(code, riskSets).map(({ cause, own }): CauseIncidence => {
    const counts = { atRisk: riskSets.atRisk, events: riskSets.events, own, eventFree };
    const incidence = incidenceOf(counts);
    const squared =
      variance === "robust"
        ? robustVarianceOfIncidence(riskSets, { rows: { ...columns, cause }, counts })
        : (variance === "aalen" ? aalenVariance : deltaVariance)(counts);
    const standardError = Array.from(squared, Math.sqrt);
    const limits = incidence.map((share, at) =>
      limitsOfIncidence({ share, error: standardError[at] as number }, z),
    );
    return {
      cause,
      events: Array.from(own),
      incidence,
      standardError,
      lower: limits.map((pair) => pair?.[0] ?? null),
      upper: limits.map((pair) => pair?.[1] ?? null),
    };
  });
  return {
    times: Array.from(riskSets.times),
    atRisk: Array.from(riskSets.atRisk),
    events: Array.from(riskSets.events),
    censored: Array.from(riskSets.censored),
    eventFree,
    causes,
    level,
    variance,
    n: riskSets.n,
    total: riskSets.total,
    lastTime: riskSets.times[riskSets.times.length - 1] ?? null,
    entered: riskSets.entered && {
      times: Array.from(riskSets.entered.times),
      total: Array.from(riskSets.entered.total),
    },
  };
}
