import { normalCritical } from "../shared/distributions.js";
import {
  checkColumnNames,
  confidenceLevel,
  type NamesOf,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";
import { plainArray } from "../shared/plain-array.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { timeCounts } from "./time-counts.js";

export const cumulativeHazardOptions = {
  /** Default 0.95. */
  level: confidenceLevel,
  /** "log": H exp(-+ z se / H); "plain": H -+ z se, cut at 0. Default "log". */
  interval: oneOf(["log", "plain"], "log"),
};

export interface CumulativeHazardOptions extends OptionsOf<typeof cumulativeHazardOptions> {}

/** One entry a different time of event or censoring, ascending. */
export interface CumulativeHazard {
  readonly times: readonly number[];
  readonly atRisk: readonly number[];
  readonly events: readonly number[];
  readonly hazard: readonly number[];
  readonly standardError: readonly number[];
  /** Null before the first event. */
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly level: number;
  readonly interval: "log" | "plain";
}

const cumulativeHazardNames: NamesOf<Parameters<typeof cumulativeHazard>[0]> = {
  times: true,
  events: true,
  entries: true,
  weights: true,
};

/**
 * Nelson-Aalen estimate of the cumulative hazard.
 *
 * H(t) = sum over event times u <= t of d_u / n_u, those censored at u being at risk at u; variance: sum of d_u / n_u^2. Weights enter as
 * counts. Ties: all d events of a time share its risk set.
 *
 * @param columns times, events, entries, weights as in TimeToEvent
 * @returns empty arrays for no rows; 0 with null limits before the first event
 * @throws ArgumentError naming the column and index of a value at fault, or the level
 * @source Nelson 1972, Technometrics 14:945; Aalen 1978, Ann Stat 6:701
 * @example
 * cumulativeHazard({ times: [3, 5, 8], events: [1, 1, 0] }).hazard // => [1/3, 1/3 + 1/2, 1/3 + 1/2]
 */
export function cumulativeHazard(
  columns: Omit<TimeToEvent, "clusters">,
  options: CumulativeHazardOptions = {},
): CumulativeHazard {
  checkColumnNames(cumulativeHazardNames, { columns });
  const { level, interval } = readOptions(cumulativeHazardOptions, options);
  const z = normalCritical(level);
  const { times, atRisk, events } = timeCounts(columns);
  const hazard = new Array<number>(times.length);
  const standardError = new Array<number>(times.length);
  let sum = 0;
  let variance = 0;
  for (let i = 0; i < times.length; i++) {
    const d = events[i]!;
    const n = atRisk[i]!;
    if (d > 0) {
      sum += d / n;
      variance += d / (n * n);
    }
    hazard[i] = sum;
    standardError[i] = Math.sqrt(variance);
  }
  const limit = (side: -1 | 1): (number | null)[] =>
    hazard.map((value, i) => {
      if (value === 0) return null;
      const half = side * z * standardError[i]!;
      return interval === "log" ? value * Math.exp(half / value) : Math.max(0, value + half);
    });
  return {
    times: plainArray(times),
    atRisk: plainArray(atRisk),
    events: plainArray(events),
    hazard,
    standardError,
    lower: limit(-1),
    upper: limit(1),
    level,
    interval,
  };
}
