import { clusterIndex, rowsByIndex } from "../../shared/clusters.js";
import type { Generator } from "../../shared/random.js";
import type { TimeToEvent } from "../../shared/time-to-event.js";
import type { RiskSets } from "../risk-sets.js";
import { remaining } from "../robust-variance.js";

/** Rows by the time at which they come or go, with what each then adds to A and B: its influence on log S is A + B g(t). */
interface Moves {
  readonly start: Int32Array;
  readonly cluster: Int32Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
}

interface Given {
  readonly columns: TimeToEvent;
  readonly riskSets: RiskSets;
  /** Error of log S at each time; where it is 0 there is no deviation. */
  readonly errorOfLog: readonly number[];
}

/** g: the sum of 1 / (n - d) - 1 / n up to each time; and 1 / (n - d). */
function runningOf({ atRisk, events }: RiskSets, last: number) {
  const running = new Float64Array(last + 1);
  const perLeft = new Float64Array(last + 1);
  let sum = 0;
  for (let i = 0; i <= last; i++) {
    const left = remaining(atRisk[i]!, events[i]!);
    if (events[i]! > 0) sum += 1 / left - 1 / atRisk[i]!;
    running[i] = sum;
    perLeft[i] = 1 / left;
  }
  return { running, perLeft };
}

function movesOf(
  { columns, riskSets }: Given,
  last: number,
): { coming: Moves; going: Moves; running: Float64Array } {
  const { rowTime, rowStart, n, times } = riskSets;
  const { running, perLeft } = runningOf(riskSets, last);
  const { of } = clusterIndex(columns);
  const moves = (index: Int32Array, added: (row: number, at: number) => readonly [number, number]): Moves => {
    const { rows, start } = rowsByIndex(index, times.length);
    const pairs = Array.from(rows, (row) => {
      const at = index[row]!;
      return at > last ? ([0, 0] as const) : added(row, at);
    });
    return {
      start,
      cluster: Int32Array.from(rows, (row) => of[row]!),
      a: Float64Array.from(pairs, ([a]) => a),
      b: Float64Array.from(pairs, ([, b]) => b),
    };
  };
  const weight = (row: number): number => columns.weights?.[row] ?? 1;
  const coming = moves(rowStart ?? new Int32Array(n), (row, at) => [
    at === 0 ? 0 : -weight(row) * running[at - 1]!,
    weight(row),
  ]);
  const going = moves(rowTime, (row, at) => {
    const own = columns.events[row] === 1 ? perLeft[at]! : 0;
    return [weight(row) * (running[at]! - own), -weight(row)];
  });
  return { coming, going, running };
}

/**
 * For each draw of a normal number for each cluster the largest |sum of the numbers times the clusters' influences on log S| / SE over the
 * times from `first` to `last`: a pass over rows and times a draw, no table of clusters by times.
 */
export function largestDeviations(
  given: Given,
  settings: {
    readonly first: number;
    readonly last: number;
    readonly draws: number;
    readonly generator: Generator;
  },
): Float64Array {
  const { first, last, draws, generator } = settings;
  const { coming, going, running } = movesOf(given, last);
  const count = clusterIndex(given.columns).count;
  const multiplier = new Float64Array(count);
  const largest = new Float64Array(draws);
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < count; k++) multiplier[k] = generator.normal();
    let a = 0;
    let b = 0;
    let most = 0;
    const add = ({ start, cluster, ...by }: Moves, at: number): void => {
      for (let i = start[at]!; i < start[at + 1]!; i++) {
        const m = multiplier[cluster[i]!]!;
        a += m * by.a[i]!;
        b += m * by.b[i]!;
      }
    };
    for (let i = 0; i <= last; i++) {
      add(coming, i);
      add(going, i);
      const error = given.errorOfLog[i]!;
      if (i < first || error === 0) continue;
      // those still at risk after this time have come by it as far as g(t)
      most = Math.max(most, Math.abs(a + b * running[i]!) / error);
    }
    largest[draw] = most;
  }
  return largest;
}
