import type { Tally } from "./tally.js";

/** One figure in one setting at one size: how often its interval held the truth, or its test found what is not there. */
export interface Row {
  readonly setting: string;
  readonly figure: string;
  readonly kind: Tally["kind"];
  readonly n: number;
  readonly replicates: number;
  /** Replicates with an interval or p-value. */
  readonly given: number;
  /** Coverage, or share of p below 0.05, among those given; null below 50 of them. */
  readonly share: number | null;
  readonly monteCarloError: number | null;
  readonly intervalAbove: number | null;
  readonly intervalBelow: number | null;
  readonly bias: number | null;
  readonly rootMeanSquare: number | null;
  readonly meanWidth: number | null;
}

const fewest = 50;
const digits = (value: number): number => Number(value.toPrecision(4));

export function rowOf(place: Pick<Row, "setting" | "figure" | "n">, tally: Tally): Row {
  const { kind, replicates, given } = tally;
  const enough = given >= fewest;
  const part = (count: number) => (enough ? digits(count / given) : null);
  const share = tally.hits / given;
  const ofInterval = (value: number) => (enough && kind === "interval" ? digits(value) : null);
  return {
    ...place,
    kind,
    replicates,
    given,
    share: part(tally.hits),
    monteCarloError: enough ? digits(Math.sqrt((share * (1 - share)) / given)) : null,
    intervalAbove: ofInterval(tally.above / given),
    intervalBelow: ofInterval(tally.below / given),
    bias: ofInterval(tally.errors / given),
    rootMeanSquare: ofInterval(Math.sqrt(tally.squares / given)),
    meanWidth: ofInterval(tally.width / given),
  };
}

const nominal = { interval: 0.95, test: 0.05 } as const;
/** Off by more than this, and by more than twice the Monte Carlo error, is marked. */
const allowed = 0.02;

/** Whether the share is off by more than 2 points and more than chance explains. */
export function isOff({ share, kind, given }: Row): boolean {
  if (share === null) return false;
  const off = Math.abs(share - nominal[kind]);
  return off > allowed && off > 2 * Math.sqrt((0.05 * 0.95) / given);
}
