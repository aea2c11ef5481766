import type { HazardColumns } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";

/** Score and information that one stratum adds; the information flat by rows. */
export interface StratumSums {
  readonly score: Float64Array;
  readonly information: Float64Array;
}

export const emptyStratumSums = (size: number): StratumSums => ({
  score: new Float64Array(size),
  information: new Float64Array(size * size),
});

/** Rows of one stratum, falling by time, and by entry where it was delayed. */
export interface TiedRows {
  readonly byTime: Int32Array;
  readonly byEntry: Int32Array | null;
}

export interface StratumGiven {
  readonly columns: Omit<HazardColumns, "covariates">;
  /** Cluster of each row. */
  readonly cluster: Int32Array;
  /** Covariates, flat by rows. */
  readonly x: Float64Array;
  readonly size: number;
  /** exp(b'x) of each row, times its weight. */
  readonly risk: Float64Array;
  /** Of each row, 1 without weights: columns are gone through again for each cluster. */
  readonly weight: Float64Array;
  readonly ties: SummedTies;
  /** Without its second moments the score alone comes much cheaper; the information then stays 0. */
  readonly wanted: "score" | "score and information";
  readonly rows: TiedRows;
  /** Cluster whose rows are left out; -1: none. */
  readonly without: number;
}

/** Sums of r, r x and r x x' over some rows, r the risk times the weight. */
interface Moments {
  s0: number;
  readonly s1: Float64Array;
  readonly s2: Float64Array;
}

const emptyMoments = (size: number): Moments => ({
  s0: 0,
  s1: new Float64Array(size),
  s2: new Float64Array(size * size),
});

function clear(moments: Moments): void {
  moments.s0 = 0;
  moments.s1.fill(0);
  moments.s2.fill(0);
}

function addRow(
  into: Moments,
  { x, size, wanted }: StratumGiven,
  at: { readonly row: number; readonly r: number },
): void {
  const { row, r } = at;
  const { s1, s2 } = into;
  const first = row * size;
  into.s0 += r;
  for (let j = 0; j < size; j++) {
    const rx = r * x[first + j]!;
    s1[j]! += rx;
    if (wanted === "score") continue;
    for (let k = 0; k < size; k++) s2[j * size + k]! += rx * x[first + k]!;
  }
}

/** Takes the mean covariates of the risk set off the score, once a tied event, and adds their covariance to the information. */
function addTied(
  sums: StratumSums,
  given: StratumGiven,
  at: { readonly risk: Moments; readonly tied: Moments; readonly events: number; readonly weight: number },
): void {
  const { size, ties, wanted } = given;
  const { risk, tied, events, weight } = at;
  const rounds = ties === "efron" ? events : 1;
  for (let round = 0; round < rounds; round++) {
    const f = round / events;
    const s0 = risk.s0 - f * tied.s0;
    const w = weight / rounds;
    for (let j = 0; j < size; j++) {
      const mean = (risk.s1[j]! - f * tied.s1[j]!) / s0;
      sums.score[j]! -= w * mean;
      if (wanted === "score") continue;
      for (let k = 0; k < size; k++) {
        const other = (risk.s1[k]! - f * tied.s1[k]!) / s0;
        const second = (risk.s2[j * size + k]! - f * tied.s2[j * size + k]!) / s0;
        sums.information[j * size + k]! += w * (second - mean * other);
      }
    }
  }
}

/** Score and information of one stratum without the rows of one cluster: one pass from the last time to the first. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: one pass over the times of a stratum with its tied events
export function sumStratum(given: StratumGiven, sums: StratumSums): StratumSums {
  const { columns, cluster, x, size, risk: risks, weight: weights, rows, without } = given;
  const { byTime, byEntry } = rows;
  const { times, events: isEvent, entries } = columns;
  const risk = emptyMoments(size);
  const tied = emptyMoments(size);
  let atRisk = 0;
  let left = 0;
  sums.score.fill(0);
  sums.information.fill(0);
  for (let i = 0; i < byTime.length; ) {
    const time = times[byTime[i]!]!;
    clear(tied);
    let events = 0;
    let weight = 0;
    for (; i < byTime.length && times[byTime[i]!] === time; i++) {
      const row = byTime[i]!;
      if (cluster[row] === without) continue;
      const r = risks[row]!;
      addRow(risk, given, { row, r });
      atRisk++;
      const own = weights[row]!;
      if (isEvent[row] !== 1 || own === 0) continue;
      addRow(tied, given, { row, r });
      events++;
      weight += own;
      for (let j = 0; j < size; j++) sums.score[j]! += own * x[row * size + j]!;
    }
    for (; byEntry && left < byEntry.length; left++) {
      const row = byEntry[left]!;
      if (entries![row]! < time) break;
      if (cluster[row] === without) continue;
      addRow(risk, given, { row, r: -risks[row]! });
      // nobody at risk: what is left in the sums is rounding
      if (--atRisk === 0) clear(risk);
    }
    if (events > 0) addTied(sums, given, { risk, tied, events, weight });
  }
  return sums;
}
