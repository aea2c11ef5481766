import { rowsByIndex } from "../../shared/clusters.js";
import type { Innermost } from "./innermost.js";
import type { Intervals } from "./interval-data.js";

/**
 * Rows that contain the same innermost intervals, merged. With F(b) the mass of the first b innermost intervals, such rows have
 * probability F(end) - F(start).
 */
export interface AlikeRows {
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly weight: Float64Array;
  /** Innermost intervals. */
  readonly count: number;
  readonly total: number;
}

/** Linear in rows but for the sorting of the few different ends of each start. */
export function mergeAlike(innermost: Innermost, intervals: Intervals): AlikeRows {
  const { count, first, last } = innermost;
  const used = Int32Array.from(first.keys()).filter((row) => first[row]! >= 0);
  const ordered = rowsByIndex(
    used.map((row) => first[row]!),
    count,
  );
  const start: number[] = [];
  const end: number[] = [];
  const weight: number[] = [];
  const sums = new Float64Array(count);
  for (let at = 0; at < count; at++) {
    const ends: number[] = [];
    for (let i = ordered.start[at]!; i < ordered.start[at + 1]!; i++) {
      const row = used[ordered.rows[i]!]!;
      const to = last[row]!;
      if (sums[to] === 0) ends.push(to);
      sums[to]! += intervals.weights[row]!;
    }
    ends.sort((a, b) => a - b);
    for (const to of ends) {
      start.push(at);
      end.push(to + 1);
      weight.push(sums[to]!);
      sums[to] = 0;
    }
  }
  return {
    start: Int32Array.from(start),
    end: Int32Array.from(end),
    weight: Float64Array.from(weight),
    count,
    total: weight.reduce((sum, w) => sum + w, 0),
  };
}
