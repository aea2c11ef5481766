import { momentsOf } from "../continuous/describe.js";
import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { indexOfCodes } from "../shared/codes.js";
import { checkColumnNames, type NamesOf, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { checkOptional } from "../shared/time-to-event.js";

/** Rows with one covariate, all at risk from the start. */
export interface CountedHazardColumns {
  readonly times: ArrayLike<number>;
  /** 0 or 1. */
  readonly events: ArrayLike<number>;
  readonly covariate: ArrayLike<number>;
  /** Whole numbers: each stratum has a baseline of its own. */
  readonly strata?: ArrayLike<number>;
}

export const countedHazardColumnsNames: NamesOf<CountedHazardColumns> = {
  times: true,
  events: true,
  covariate: true,
  strata: true,
};

/** Rows from the last time to the first within each stratum; a block is one time in one stratum. */
interface Sorted {
  readonly row: Int32Array;
  readonly x: Float64Array;
  readonly event: Uint8Array;
  readonly block: Int32Array;
  readonly stratum: Int32Array;
}

/** The rows that count, in the same order, gathered so that the iterations touch nothing else. */
interface Gathered extends Omit<Sorted, "row"> {
  readonly count: Float64Array;
  size: number;
}

interface Derivatives {
  score: number;
  information: number;
}

export const hazardTieMethods = ["efron", "breslow"] as const;
export type HazardTies = (typeof hazardTieMethods)[number];

/** Further from 0, in standard deviations of the covariate, the ratio is on its way to 0 or to infinity. */
const farthest = 20;

function sorted(columns: CountedHazardColumns, scale: { mean: number; deviation: number }): Sorted {
  const n = columns.times.length;
  const { index } = indexOfCodes(columns.strata ?? new Int32Array(n));
  const time = (row: number): number => columns.times[row]!;
  const row = Int32Array.from({ length: n }, (_, i) => i).sort(
    (one, two) => index[one]! - index[two]! || time(two) - time(one) || one - two,
  );
  const block = new Int32Array(n);
  const stratum = Int32Array.from(row, (from) => index[from]!);
  for (let i = 1; i < n; i++) {
    const same = stratum[i] === stratum[i - 1] && time(row[i]!) === time(row[i - 1]!);
    block[i] = block[i - 1]! + (same ? 0 : 1);
  }
  return {
    row,
    x: Float64Array.from(row, (from) => (columns.covariate[from]! - scale.mean) / scale.deviation),
    event: Uint8Array.from(row, (from) => columns.events[from]!),
    block,
    stratum,
  };
}

function gather(from: Sorted, counts: ArrayLike<number>, into: Gathered): void {
  let size = 0;
  for (let i = 0; i < from.row.length; i++) {
    const count = counts[from.row[i]!]!;
    if (count === 0) continue;
    into.count[size] = count;
    into.x[size] = from.x[i]!;
    into.event[size] = from.event[i]!;
    into.block[size] = from.block[i]!;
    into.stratum[size] = from.stratum[i]!;
    size++;
  }
  into.size = size;
}

/** One backward pass; a row that counts k times is k tied rows. */
function derivativesAt(
  rows: Gathered,
  { beta, ties }: { readonly beta: number; readonly ties: HazardTies },
  into: Derivatives,
): void {
  const { x, count, event, block, stratum, size } = rows;
  let score = 0;
  let information = 0;
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  for (let i = 0; i < size; ) {
    if (i > 0 && stratum[i] !== stratum[i - 1]) {
      s0 = 0;
      s1 = 0;
      s2 = 0;
    }
    const here = block[i];
    let d = 0;
    let d0 = 0;
    let d1 = 0;
    let d2 = 0;
    for (; i < size && block[i] === here; i++) {
      const value = x[i]!;
      const times = count[i]!;
      const risk = times * Math.exp(beta * value);
      s0 += risk;
      s1 += risk * value;
      s2 += risk * value * value;
      if (event[i] === 0) continue;
      d += times;
      score += times * value;
      d0 += risk;
      d1 += risk * value;
      d2 += risk * value * value;
    }
    const steps = ties === "efron" ? d : Math.min(d, 1);
    for (let step = 0; step < steps; step++) {
      const off = step / steps;
      const below = s0 - off * d0;
      const mean = (s1 - off * d1) / below;
      score -= (d / steps) * mean;
      information += (d / steps) * ((s2 - off * d2) / below - mean * mean);
    }
  }
  into.score = score;
  into.information = information;
}

/** Newton's steps from a start, kept between the ends where the score changes sign. Null where it never does. */
function maximised(
  rows: Gathered,
  { start, ties }: { readonly start: number; readonly ties: HazardTies },
): { beta: number; information: number } | null {
  const at: Derivatives = { score: 0, information: 0 };
  let beta = start;
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 100; round++) {
    derivativesAt(rows, { beta, ties }, at);
    if (at.score > 0) low = beta;
    else high = beta;
    if (!(at.information > 1e-12)) return null;
    const step = Math.max(-2, Math.min(2, at.score / at.information));
    let next = beta + step;
    if (next <= low || next >= high) {
      if (Math.abs(step) > 1e-7) next = (Math.max(low, -farthest) + Math.min(high, farthest)) / 2;
    }
    if (Math.abs(next) > farthest) return null;
    beta = next;
    // the next step would be about the square of this one
    if (Math.abs(step) <= 1e-6) return { beta, information: at.information };
  }
  return null;
}

/** Of a log hazard ratio per unit of the covariate. */
export interface CountedHazard {
  readonly estimate: number | null;
  /** From the information. */
  readonly standardError: number | null;
}

export const countedHazardOptions = {
  /** Of events at one time. Default "efron". */
  ties: oneOf(hazardTieMethods, "efron"),
};

export interface CountedHazardOptions extends OptionsOf<typeof countedHazardOptions> {}

/**
 * Log hazard ratio of one covariate for any counts of rows that are sorted once: a row that counts k times is k tied rows, as in a
 * resample written out. Every figure starts from that of the data themselves.
 *
 * @returns null estimate where the covariate is constant in the counted rows at risk, or the ratio is on its way to 0 or to infinity
 * @throws ArgumentError naming the column and index at fault
 * @source Cox 1972, J R Stat Soc B 34:187; ties: Efron 1977, J Am Stat Assoc 72:557
 */
export function countedLogHazardRatio(
  columns: CountedHazardColumns,
  options: CountedHazardOptions = {},
): (counts: ArrayLike<number>) => CountedHazard {
  checkColumnNames(countedHazardColumnsNames, { columns });
  const { ties } = readOptions(countedHazardOptions, options);
  checkColumns(columns);
  const n = columns.times.length;
  const { mean, variance } = n > 0 ? momentsOf(columns.covariate) : { mean: 0, variance: null };
  const deviation = Math.sqrt(variance ?? 0) || 1;
  const rows = sorted(columns, { mean, deviation });
  const into: Gathered = {
    x: new Float64Array(n),
    count: new Float64Array(n),
    event: new Uint8Array(n),
    block: new Int32Array(n),
    stratum: new Int32Array(n),
    size: 0,
  };
  gather(rows, new Float64Array(n).fill(1), into);
  const start = maximised(into, { start: 0, ties })?.beta ?? 0;
  return (counts) => {
    gather(rows, counts, into);
    const found = maximised(into, { start, ties });
    if (!found) return { estimate: null, standardError: null };
    return { estimate: found.beta / deviation, standardError: 1 / Math.sqrt(found.information) / deviation };
  };
}

function checkColumns(columns: CountedHazardColumns): void {
  const times = { name: "times", values: columns.times };
  const events = { name: "events", values: columns.events };
  const covariate = { name: "covariate", values: columns.covariate };
  checkSameLength(events, times);
  checkSameLength(covariate, times);
  checkColumn(times, "not negative");
  checkColumn(events, "zero or one");
  checkColumn(covariate, "finite");
  checkOptional({ name: "strata", values: columns.strata, kind: "code" }, columns.times);
}
