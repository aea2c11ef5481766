import { orderFalling } from "../layout/order.js";
import { addWeight, type SumTree, sumTree, weightBelow } from "./sum-tree.js";

/** Columns as doubles, all there. */
export interface PlainTimes {
  readonly times: Float64Array;
  readonly events: Float64Array;
  readonly scores: Float64Array;
  readonly weights: Float64Array;
  readonly entries: Float64Array | null;
}

/** For each row the weight of its partners in pairs of each kind, and the weighted counts of pairs. */
export interface PairCounts {
  readonly concordant: Float64Array;
  readonly discordant: Float64Array;
  readonly tied: Float64Array;
  readonly sums: {
    concordant: number;
    discordant: number;
    tiedScores: number;
    tiedTimes: number;
    tiedBoth: number;
  };
}

/** Rows of one stratum, with the ranks of their scores and their orders. */
interface Ordered {
  readonly columns: PlainTimes;
  /** By falling time. */
  readonly byTime: Int32Array;
  /** By falling entry; null: all at risk from the start. */
  readonly byEntry: Int32Array | null;
  readonly rank: Int32Array;
  readonly ranks: number;
}

/** Adds the pairs of the rows of one stratum to the counts. */
export function pairsOfStratum(columns: PlainTimes, rows: Int32Array, counts: PairCounts): void {
  const picked = (values: Float64Array): Float64Array => Float64Array.from(rows, (row) => values[row]!);
  const own: PlainTimes = {
    times: picked(columns.times),
    events: picked(columns.events),
    scores: picked(columns.scores),
    weights: picked(columns.weights),
    entries: columns.entries && picked(columns.entries),
  };
  const all = Int32Array.from(rows, (_, i) => i);
  const byScore = orderFalling(all, own.scores);
  const rank = new Int32Array(rows.length);
  let ranks = 0;
  for (let i = byScore.length - 1; i >= 0; i--) {
    const row = byScore[i]!;
    const before = i + 1 < byScore.length ? own.scores[byScore[i + 1]!] : undefined;
    if (before !== own.scores[row]) ranks++;
    rank[row] = ranks - 1;
  }
  const ordered: Ordered = {
    columns: own,
    byTime: orderFalling(all, own.times),
    byEntry: own.entries && orderFalling(all, own.entries),
    rank,
    ranks,
  };
  const add = (row: number, pairs: Partners): void => {
    counts.concordant[rows[row]!]! += pairs.concordant;
    counts.discordant[rows[row]!]! += pairs.discordant;
    counts.tied[rows[row]!]! += pairs.tied;
  };
  eventsAgainstLater(ordered, counts, add);
  rowsAgainstEarlierEvents(ordered, add);
}

interface Partners {
  concordant: number;
  discordant: number;
  tied: number;
}

/** Weight in the tree with a lower, equal and higher score than a rank. */
function split(tree: SumTree, rank: number): { lower: number; equal: number; higher: number } {
  const lower = weightBelow(tree, rank);
  const upTo = weightBelow(tree, rank + 1);
  return { lower, equal: upTo - lower, higher: tree.total - upTo };
}

/** Ends of the groups of equal times. */
function* groupsOf(byTime: Int32Array, times: Float64Array): Generator<readonly [number, number]> {
  for (let start = 0, end = 0; start < byTime.length; start = end) {
    while (end < byTime.length && times[byTime[end]!] === times[byTime[start]!]) end++;
    yield [start, end];
  }
}

/** From the last time to the first: each event against those still at risk after it. */
function eventsAgainstLater(
  ordered: Ordered,
  counts: PairCounts,
  add: (row: number, pairs: Partners) => void,
): void {
  const { columns, byTime, byEntry, rank, ranks } = ordered;
  const { times, events, weights, entries } = columns;
  const later = sumTree(ranks);
  const { sums } = counts;
  let removed = 0;
  for (const [start, end] of groupsOf(byTime, times)) {
    const time = times[byTime[start]!]!;
    for (; byEntry && entries && removed < byEntry.length; removed++) {
      const row = byEntry[removed]!;
      if (entries[row]! < time) break;
      addWeight(later, rank[row]!, -weights[row]!);
    }
    const group = byTime.subarray(start, end);
    for (const row of group) if (events[row] !== 1) addWeight(later, rank[row]!, weights[row]!);
    for (const row of group) {
      if (events[row] !== 1) continue;
      const { lower, equal, higher } = split(later, rank[row]!);
      const weight = weights[row]!;
      add(row, { concordant: lower, discordant: higher, tied: equal });
      sums.concordant += weight * lower;
      sums.discordant += weight * higher;
      sums.tiedScores += weight * equal;
    }
    countTiedEvents(
      group.filter((row) => events[row] === 1),
      ordered,
      sums,
    );
    for (const row of group) if (events[row] === 1) addWeight(later, rank[row]!, weights[row]!);
  }
}

/** Pairs of events at one time. */
function countTiedEvents(tied: Int32Array, { columns, rank }: Ordered, sums: PairCounts["sums"]): void {
  if (tied.length < 2) return;
  const byRank = tied.slice().sort((a, b) => rank[a]! - rank[b]!);
  let all = 0;
  let sameScore = 0;
  byRank.forEach((row, i) => {
    const weight = columns.weights[row]!;
    const before = i > 0 ? rank[byRank[i - 1]!] : -1;
    if (before !== rank[row]) sameScore = 0;
    sums.tiedBoth += weight * sameScore;
    sums.tiedTimes += weight * (all - sameScore);
    all += weight;
    sameScore += weight;
  });
}

/** From the first time to the last: each row against the events before its own time at which it was at risk. */
function rowsAgainstEarlierEvents(ordered: Ordered, add: (row: number, pairs: Partners) => void): void {
  const { columns, byEntry, rank, ranks } = ordered;
  const { times, events, weights, entries } = columns;
  const byTime = ordered.byTime.slice().reverse();
  const earlier = sumTree(ranks);
  const count = (row: number, sign: 1 | -1): void => {
    const { lower, equal, higher } = split(earlier, rank[row]!);
    add(row, { concordant: sign * higher, discordant: sign * lower, tied: sign * equal });
  };
  let entered = byEntry ? byEntry.length : 0;
  for (const [start, end] of groupsOf(byTime, times)) {
    const time = times[byTime[start]!]!;
    for (; byEntry && entries && entered > 0; entered--) {
      const row = byEntry[entered - 1]!;
      if (entries[row]! >= time) break;
      count(row, -1);
    }
    const group = byTime.subarray(start, end);
    for (const row of group) if (events[row] === 1) count(row, 1);
    for (const row of group) if (events[row] === 1) addWeight(earlier, rank[row]!, weights[row]!);
    for (const row of group) if (events[row] !== 1) count(row, 1);
  }
}
