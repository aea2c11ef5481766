import { normalCritical } from "../shared/distributions.js";
import { checkColumnNames, confidenceLevel, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { plainArray } from "../shared/plain-array.js";
import { robustVarianceOfIncidence } from "./clustered-incidence.js";
import { type CompetingEvents, checkCauses, competingEventsNames } from "./competing-events.js";
import { limitsOfCurve } from "./curve-intervals.js";
import { type CountsByCause, countsByCause, countsByCauseAndRow } from "./incidence-counts.js";
import { aalenVariance, type CountsOfCause, deltaVariance } from "./incidence-variance.js";
import { sharesNotYet } from "./product-limit.js";

export const incidenceVariances = ["delta", "aalen", "robust"] as const;
export type IncidenceVariance = (typeof incidenceVariances)[number];

export const incidenceOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /**
   * Default "robust" (summed within clusters) where there are clusters, else "delta"; "aalen" is slightly larger, and the one that goes
   * with Gray's test.
   */
  variance: oneOf(incidenceVariances),
};

export interface IncidenceOptions extends OptionsOf<typeof incidenceOptions> {}

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

/** F after each time. */
function incidenceOf({ atRisk, own, eventFree }: CountsOfCause): number[] {
  const incidence = new Array<number>(own.length);
  let before = 1;
  let risen = 0;
  for (let i = 0; i < incidence.length; i++) {
    risen += (before * own[i]!) / atRisk[i]!;
    before = eventFree[i]!;
    incidence[i] = risen;
  }
  return incidence;
}

/** Variance of the incidence of one cause at each time. */
type VarianceOf = (cause: number, counts: CountsOfCause) => Float64Array;

/** Counts, and the variance that goes with them: the robust one needs to know which row stands where. */
export function countsAndVariance(
  columns: CompetingEvents,
  variance: IncidenceVariance,
): CountsByCause & { readonly varianceOf: VarianceOf } {
  if (variance === "robust") {
    const found = countsByCauseAndRow(columns);
    const varianceOf: VarianceOf = (cause, counts) =>
      robustVarianceOfIncidence(found.counts, { rows: { ...columns, cause }, counts });
    return { ...found, varianceOf };
  }
  const found =
    columns.entries === undefined && columns.clusters === undefined
      ? countsByCause(columns)
      : countsByCauseAndRow(columns);
  return {
    ...found,
    varianceOf: (_, counts) => (variance === "aalen" ? aalenVariance : deltaVariance)(counts),
  };
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
  checkColumnNames(competingEventsNames, { columns });
  const { level, variance = columns.clusters ? "robust" : "delta" } = readOptions(incidenceOptions, options);
  const z = normalCritical(level);
  checkCauses(columns);
  const { counts, causes, varianceOf } = countsAndVariance(columns, variance);
  const { times, atRisk, events, entered } = counts;
  const eventFree = sharesNotYet(counts);
  return {
    times: plainArray(times),
    atRisk: plainArray(atRisk),
    events: plainArray(events),
    censored: plainArray(counts.censored),
    eventFree,
    causes: causes.map(({ cause, own }): CauseIncidence => {
      const ofCause = { atRisk, events, own, eventFree };
      const incidence = incidenceOf(ofCause);
      const errors = varianceOf(cause, ofCause).map(Math.sqrt);
      // the log-log scale of F itself; on 1 - F the interval would be another
      const errorsOfLog = errors.map((error, i) => error / incidence[i]!);
      return {
        cause,
        events: plainArray(own),
        incidence,
        standardError: plainArray(errors),
        ...limitsOfCurve({ shares: incidence, errorsOfLog }, { scale: "log-log", z }),
      };
    }),
    level,
    variance,
    n: counts.n,
    total: counts.total,
    lastTime: times[times.length - 1] ?? null,
    entered: entered && { times: plainArray(entered.times), total: plainArray(entered.total) },
  };
}
