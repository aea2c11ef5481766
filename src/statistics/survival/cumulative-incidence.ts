import { checkColumn, checkSameLength } from "../arguments.js";
import { normalCritical } from "../distributions.js";
import { limitsOfShare } from "./curve-intervals.js";
import { sharesNotYet } from "./product-limit.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { remaining } from "./robust-variance.js";

/** One row a record: cause 0 where follow-up ended without any event, else 1, 2, ... for the event that came first. */
export interface CompetingEvents {
  readonly times: ArrayLike<number>;
  readonly causes: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
}

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
  readonly n: number;
  readonly total: number;
  readonly lastTime: number | null;
  readonly entered: { readonly times: readonly number[]; readonly total: readonly number[] } | null;
}

/**
 * The delta-method (Greenwood-type) variance, as a recursion whose terms are never negative:
 * sum of (F(t) - F_u)^2 d / (n (n - d)) + S(u-)^2 (n - d_k) d_k / n^3 - 2 (F(t) - F_u) S(u-) d_k / n^2.
 */
function incidenceOf(riskSets: RiskSets, own: Float64Array): { incidence: number[]; variance: number[] } {
  const shares = sharesNotYet(riskSets);
  const incidence: number[] = [];
  const variance: number[] = [];
  let risen = 0;
  let hazard = 0; // sum of a = d / (n (n - d))
  let hazardByRise = 0; // sum of a g, g = rise since
  let hazardByRise2 = 0; // sum of a g^2
  let direct = 0; // sum of S^2 (n - dk) dk / n^3
  let cross = 0; // sum of c = S dk / n^2
  let crossByRise = 0; // sum of g c
  for (let at = 0; at < own.length; at++) {
    const n = riskSets.atRisk[at] as number;
    const d = riskSets.events[at] as number;
    const dk = own[at] as number;
    const before = at === 0 ? 1 : (shares[at - 1] as number);
    const rise = (before * dk) / n;
    hazardByRise2 += 2 * rise * hazardByRise + rise * rise * hazard;
    hazardByRise += rise * hazard;
    crossByRise += rise * cross;
    risen += rise;
    // this time's own terms start with g = 0
    const left = remaining(n, d);
    // once nobody is left event-free the incidence rises no further, so this term would stay multiplied by 0
    if (d > 0 && left > 0) hazard += d / (n * left);
    direct += (before * before * (n - dk) * dk) / n ** 3;
    cross += (before * dk) / (n * n);
    incidence.push(risen);
    variance.push(Math.max(0, hazardByRise2 + direct - 2 * crossByRise));
  }
  return { incidence, variance };
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
 * F_k(t) = sum over u <= t of S(u-) d_ku / n_u, S being the share without any event. Variance: delta method (Greenwood type); the
 * variant used with Gray's test is slightly larger. Interval: F^exp(-+ z SE / (F log F)), the log-log scale; null where F is 0 or 1.
 *
 * @param columns causes: whole numbers, 0 = censored
 * @returns no causes and no times for no rows; with all censored, no causes
 * @throws ArgumentError naming the column and index of a value at fault
 * @source Aalen & Johansen 1978, Scand J Stat 5:141; variance: Marubini & Valsecchi 1995, Analysing Survival Data; log-log: Choudhury
 *   2002, Stat Med 21:1129
 */
export function cumulativeIncidence(
  columns: CompetingEvents,
  options: { readonly level?: number } = {},
): CumulativeIncidence {
  const { level = 0.95 } = options;
  const z = normalCritical(level);
  checkCauses(columns);
  const { causes: code, ...rest } = columns;
  const riskSets = prepareRiskSets({ ...rest, events: Array.from(code, (cause) => (cause > 0 ? 1 : 0)) });
  const numbers = [...new Set(Array.from(code))].filter((cause) => cause > 0).sort((a, b) => a - b);
  const causes = numbers.map((cause): CauseIncidence => {
    const own = new Float64Array(riskSets.times.length);
    for (let row = 0; row < code.length; row++)
      if (code[row] === cause) own[riskSets.rowTime[row] as number]!++;
    const { incidence, variance } = incidenceOf(riskSets, own);
    const standardError = variance.map(Math.sqrt);
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
    eventFree: sharesNotYet(riskSets),
    causes,
    level,
    n: riskSets.n,
    total: riskSets.total,
    lastTime: riskSets.times[riskSets.times.length - 1] ?? null,
    entered: riskSets.entered && {
      times: Array.from(riskSets.entered.times),
      total: Array.from(riskSets.entered.total),
    },
  };
}
