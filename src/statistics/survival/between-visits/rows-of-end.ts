import type { Visits } from "./columns.js";

/** What is known of the time to one end: (left, right], right infinite where another end came first or none was seen. */
export interface RowsOfEnd {
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** Mean time of a row's end within its interval, by the curve of that end where there is one, else its middle. */
export type MeanWithin = (row: number) => number;

/** The middle of each interval. */
export const middles =
  ({ left, right }: Visits): MeanWithin =>
  (row) =>
    (Math.max(0, left[row]!) + right[row]!) / 2;

/**
 * Rows for the model of one end. A row with another end stops counting when that came: to the day where that is known, else at the mean of its
 * interval. (Stopping it at the last visit before would lose the time in between and make this end look more frequent than it is.)
 */
export function rowsOfEnd(
  visits: Visits,
  of: { readonly end: number; readonly meanWithin: MeanWithin },
): RowsOfEnd {
  const { end, meanWithin } = of;
  const left = visits.left.slice();
  const right = visits.right.slice();
  for (let row = 0; row < visits.n; row++) {
    if (visits.ends[row] === 0 || visits.ends[row] === end) continue;
    left[row] = visits.left[row] === visits.right[row] ? visits.left[row]! : meanWithin(row);
    right[row] = Number.POSITIVE_INFINITY;
  }
  return { left, right };
}

/** Points over which a mean within an interval is taken. */
const points = 32;

/** Mean time within (left, right] under a curve of the share without the end; the middle where the curve is level. */
export function meanUnder(
  tail: (time: number) => number,
  interval: { readonly left: number; readonly right: number },
): number {
  const { left, right } = interval;
  const [before, after] = [tail(left), tail(right)];
  if (!(before - after > 1e-12)) return (left + right) / 2;
  let area = 0;
  const step = (right - left) / points;
  for (let i = 0; i < points; i++) area += tail(left + (i + 0.5) * step) * step;
  // mean - left = integral of (tail - after) over the mass
  return left + (area - after * (right - left)) / (before - after);
}
