/** A figure that the case must give at a size, so that the right thing is timed. */
export interface Checked {
  readonly at: number;
  readonly values: readonly number[];
  /** Relative. */
  readonly tolerance: number;
}

/** One thing that is timed: unsorted typed columns in, finished result out; the data are made outside the timed part. */
export interface BenchCase {
  readonly name: string;
  readonly what: string;
  /** The peer program as it stands in peers.R, its level, and the size at which the two are set side by side. */
  readonly peer: { readonly name: string; readonly size: number };
  /** Largest ratio of our time to the peer's that is aimed at. */
  readonly target: number;
  /** Sizes for the growth exponent, smallest and largest. */
  readonly growth: readonly [number, number] | null;
  readonly checked: Checked | null;
  /** Data of a size, made; what is returned runs once and gives the figures to be checked. */
  readonly prepare: (n: number) => () => readonly number[] | Promise<readonly number[]>;
}
