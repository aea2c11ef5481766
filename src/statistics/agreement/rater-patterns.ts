import type { NamesOf } from "../shared/options.js";
/** Readings one below the other; a missing reading is a row that is not there. */
export interface RaterReadings {
  readonly values: ArrayLike<number>;
  /** Whole number of each reading's subject. */
  readonly subjects: ArrayLike<number>;
  /** Whole number of each reading's rater. */
  readonly raters: ArrayLike<number>;
}

export const raterReadingsNames: NamesOf<RaterReadings> = { values: true, subjects: true, raters: true };

/** Subjects read equally often by each of the raters: all that the likelihood needs of them. */
export interface RaterPattern {
  /** Readings by each rater. */
  readonly counts: Float64Array;
  /** Raters with a reading: few of many, where raters are many. */
  readonly used: Int32Array;
  /** All readings of such a subject. */
  readonly readings: number;
  readonly subjects: number;
  /** Mean over the subjects of the sum of their readings, and squared deviations of the sums from it. */
  readonly meanSum: number;
  readonly squares: number;
}

/** Readings less their grand mean, summed up. */
export interface RaterSums {
  readonly readings: number;
  readonly subjects: number;
  readonly raters: number;
  readonly patterns: readonly RaterPattern[];
  /** Sum of the readings of each rater, and their number. */
  readonly raterSums: Float64Array;
  readonly raterCounts: Float64Array;
  /** Squared deviations from the subject's mean, and from the grand mean. */
  readonly within: number;
  readonly total: number;
}

type Index = { readonly of: Int32Array; readonly count: number };

/** One pass over readings, one over subjects; what follows is linear in the number of patterns only. */
export function raterSumsOf(
  values: ArrayLike<number>,
  { subjects, raters }: { readonly subjects: Index; readonly raters: Index },
): RaterSums {
  const readings = values.length;
  let grand = 0;
  for (let row = 0; row < readings; row++) grand += values[row]! / readings;
  const sums = new Float64Array(subjects.count);
  const numbers = new Float64Array(subjects.count);
  const cells = new Float64Array(subjects.count * raters.count);
  const raterSums = new Float64Array(raters.count);
  const raterCounts = new Float64Array(raters.count);
  let total = 0;
  for (let row = 0; row < readings; row++) {
    const value = values[row]! - grand;
    const subject = subjects.of[row]!;
    const rater = raters.of[row]!;
    sums[subject]! += value;
    numbers[subject]! += 1;
    cells[subject * raters.count + rater]! += 1;
    raterSums[rater]! += value;
    raterCounts[rater]! += 1;
    total += value * value;
  }
  let within = 0;
  for (let row = 0; row < readings; row++) {
    const subject = subjects.of[row]!;
    within += (values[row]! - grand - sums[subject]! / numbers[subject]!) ** 2;
  }
  const patterns = patternsOf({ sums, cells, size: raters.count });
  return {
    readings,
    subjects: subjects.count,
    raters: raters.count,
    patterns,
    raterSums,
    raterCounts,
    within,
    total,
  };
}

function patternsOf(of: {
  readonly sums: Float64Array;
  readonly cells: Float64Array;
  readonly size: number;
}) {
  const { sums, cells, size } = of;
  const members = new Map<string, number[]>();
  for (let subject = 0; subject < sums.length; subject++) {
    const key = cells.subarray(subject * size, (subject + 1) * size).join();
    const known = members.get(key);
    if (known === undefined) members.set(key, [subject]);
    else known.push(subject);
  }
  return [...members.values()].map((list): RaterPattern => {
    const first = list[0]!;
    const counts = cells.slice(first * size, (first + 1) * size);
    const meanSum = list.reduce((sum, subject) => sum + sums[subject]! / list.length, 0);
    return {
      counts,
      used: Int32Array.from(counts.keys()).filter((rater) => counts[rater] !== 0),
      readings: counts.reduce((sum, count) => sum + count, 0),
      subjects: list.length,
      meanSum,
      squares: list.reduce((sum, subject) => sum + (sums[subject]! - meanSum) ** 2, 0),
    };
  });
}
