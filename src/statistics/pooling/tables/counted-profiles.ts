import type { NewtonRows } from "../../linear/newton.js";
import { indexOfCodes } from "../../shared/codes.js";
import { countsByKind, type LineCounts, lineCounts, linesByStratum } from "./counts.js";
import { profilesOf } from "./profiles.js";
import type { RiskSetTable } from "./risk-set-table.js";

/** Who was at risk in one stratum, by time and profile. */
export interface StratumOfProfiles {
  /** Place of each of its profiles among all. */
  readonly profiles: readonly number[];
  /** Times at which anybody had the event. */
  readonly times: number;
  /** Flat by times. */
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
}

/** A table as a regression needs it. */
export interface CountedProfiles {
  /** A row a profile: its standardised covariates. */
  readonly rows: NewtonRows;
  readonly scale: Float64Array;
  readonly strata: readonly StratumOfProfiles[];
  /** Rows that were counted, and their events. */
  readonly n: number;
  readonly events: number;
}

/** A spread below this part of the values is rounding: the column is constant. */
const constantBelow = 1e-12;

/** Values less their mean over the rows, over their standard deviation; a constant column becomes 0. */
function standardised(values: Float64Array, weights: Float64Array) {
  let total = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    total += weights[i]!;
    sum += weights[i]! * values[i]!;
  }
  const mean = total > 0 ? sum / total : 0;
  let squares = 0;
  let [low, high] = [mean, mean];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    squares += weights[i]! * (value - mean) * (value - mean);
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const deviation = total > 0 ? Math.sqrt(squares / total) : 0;
  if (deviation <= constantBelow * Math.abs(mean))
    return { x: new Float64Array(values.length), scale: 1, range: 0 };
  return {
    x: values.map((value) => (value - mean) / deviation),
    scale: deviation,
    range: (high - low) / deviation,
  };
}

/** The times with events of a stratum, by the profiles that it has. */
function stratumOf(
  table: RiskSetTable,
  asked: LineCounts & { readonly lines: readonly number[]; readonly of: Int32Array },
): StratumOfProfiles {
  const { lines, of, ...counted } = asked;
  const { codes: profiles, index: kindOf } = indexOfCodes(lines.map((line) => of[line]!));
  const kinds = profiles.length;
  const counts = countsByKind(table, { ...counted, lines, kindOf, kinds });
  const atRisk: number[] = [];
  const events: number[] = [];
  let times = 0;
  for (let i = 0; i < counts.times.length; i++) {
    const [from, to] = [i * kinds, (i + 1) * kinds];
    const here = counts.events.subarray(from, to);
    if (!here.some((count) => count > 0)) continue;
    times++;
    events.push(...here);
    atRisk.push(...counts.atRisk.subarray(from, to));
  }
  return { profiles, times, atRisk: Float64Array.from(atRisk), events: Float64Array.from(events) };
}

/** Covariates by profile; the groups of a table are none unless they are listed as covariates. */
export function countedProfiles(table: RiskSetTable, cause: number): CountedProfiles {
  const { groups: _, ...rest } = table;
  const profiles = profilesOf(rest);
  const columns = table.covariates?.columns ?? [];
  const weights = new Float64Array(profiles.count);
  let n = 0;
  for (let line = 0; line < table.times.length; line++) {
    weights[profiles.of[line]!]! += table.entered[line]!;
    n += table.entered[line]!;
  }
  const own = columns.map((column) =>
    standardised(
      Float64Array.from(profiles.example, (line) => column[line]!),
      weights,
    ),
  );
  const counted = lineCounts(table, cause);
  const strata = linesByStratum(table).map((lines) =>
    stratumOf(table, { ...counted, lines, of: profiles.of }),
  );
  let events = 0;
  for (const stratum of strata) for (const count of stratum.events) events += count;
  return {
    rows: {
      n: profiles.count,
      size: columns.length,
      x: own.map(({ x }) => x),
      ranges: Float64Array.from(own, ({ range }) => range),
      eventWeight: events,
    },
    scale: Float64Array.from(own, ({ scale }) => scale),
    strata,
    n,
    events,
  };
}
