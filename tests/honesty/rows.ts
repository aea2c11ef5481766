import type { Setting } from "./setting.js";
import type { Tally } from "./tally.js";

/** One figure in one setting at one size: how often its interval held the truth, or its test found what is not there. */
export interface Row {
  readonly part: Setting["part"];
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
  /** Mean of estimate less truth, and its Monte Carlo error. */
  readonly bias: number | null;
  readonly biasError: number | null;
  readonly rootMeanSquare: number | null;
  /** Null also where an interval has no upper limit. */
  readonly meanWidth: number | null;
}

/** The committed table: rows of every setting, and on which day and with which version each setting was run. */
export interface Committed {
  readonly runs: Readonly<Record<string, { readonly version: string; readonly on: string }>>;
  readonly rows: readonly Row[];
}

/** Settings run anew take the place of their earlier rows; those that are no longer there leave theirs. */
export function withRun(
  before: Committed | null,
  run: { readonly version: string; readonly on: string; readonly rows: readonly Row[] },
  settings: readonly Setting[],
): Committed {
  const { version, on, rows } = run;
  const anew = new Set(rows.map(keyOf));
  const keys = settings.map(({ part, name }) => keyOf({ part, setting: name }));
  const all = [...(before?.rows ?? []).filter((row) => !anew.has(keyOf(row))), ...rows];
  const runOf = (key: string) => (anew.has(key) ? { version, on } : before?.runs[key]);
  return {
    runs: Object.fromEntries(keys.flatMap((key) => (runOf(key) === undefined ? [] : [[key, runOf(key)!]]))),
    rows: keys.flatMap((key) => all.filter((row) => keyOf(row) === key)),
  };
}

/** A setting's name among those of both parts. */
export const keyOf = ({ part, setting }: Pick<Row, "part" | "setting">): string => `${part}: ${setting}`;

const fewest = 50;
const digits = (value: number): number => Number(value.toPrecision(4));

export function rowOf(place: Pick<Row, "part" | "setting" | "figure" | "n">, tally: Tally): Row {
  const { kind, replicates, given } = tally;
  const enough = given >= fewest;
  const part = (count: number) => (enough ? digits(count / given) : null);
  const share = tally.hits / given;
  const ofInterval = (value: number) =>
    enough && kind === "interval" && Number.isFinite(value) ? digits(value) : null;
  const bias = tally.errors / given;
  const variance = Math.max(0, tally.squares / given - bias * bias);
  return {
    ...place,
    kind,
    replicates,
    given,
    share: part(tally.hits),
    monteCarloError: enough ? digits(Math.sqrt((share * (1 - share)) / given)) : null,
    intervalAbove: ofInterval(tally.above / given),
    intervalBelow: ofInterval(tally.below / given),
    bias: ofInterval(bias),
    biasError: ofInterval(Math.sqrt(variance / given)),
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

/** Whether an interval holds the truth too seldom, by more than 2 points and by more than three times the Monte Carlo error. */
export function isShort({ share, kind, given }: Pick<Row, "share" | "kind" | "given">): boolean {
  if (share === null || kind !== "interval") return false;
  const off = nominal.interval - share;
  return off > allowed && off > 3 * Math.sqrt((0.05 * 0.95) / given);
}

/** One figure at one size over several settings together. */
export type PooledRow = Pick<
  Row,
  "kind" | "figure" | "n" | "replicates" | "given" | "share" | "monteCarloError"
>;

/** Rows of one figure at one size together, each replicate counting once; null where there are none. */
export function pooled(rows: readonly Row[]): PooledRow | null {
  const [first] = rows;
  if (first === undefined) return null;
  const sum = (of: (row: Row) => number) => rows.reduce((total, row) => total + of(row), 0);
  const given = sum((row) => row.given);
  // a row with fewer than fifty intervals has no share
  const known = rows.filter((row) => row.share !== null);
  const counted = known.reduce((total, row) => total + row.given, 0);
  const share = known.reduce((total, row) => total + row.share! * row.given, 0) / counted;
  return {
    kind: first.kind,
    figure: first.figure,
    n: first.n,
    replicates: sum((row) => row.replicates),
    given,
    share: counted === 0 ? null : digits(share),
    monteCarloError: counted === 0 ? null : digits(Math.sqrt((share * (1 - share)) / counted)),
  };
}
