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

/** Fewer replicates of a setting run again on a later day, beside its committed rows. */
interface Check {
  readonly on: string;
  readonly replicates: number;
  /** Figures at a size that both have a share of. */
  readonly figures: number;
  /** Of these, those that lie apart by more than two of their common Monte Carlo errors; 5 in 100 do by chance. */
  readonly apart: number;
  /** The largest distance, in these errors. */
  readonly largest: number;
}

interface Run {
  readonly version: string;
  readonly on: string;
  /** Where the rows are older: whether they still hold. */
  readonly checked?: Check;
}

/** The committed table: rows of every setting, and on which day and with which version each setting was run. */
export interface Committed {
  readonly runs: Readonly<Record<string, Run>>;
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

/** The committed rows as they are, with what running the same settings again has found. */
export function withCheck(
  { runs, rows }: Committed,
  { on, rows: again }: { readonly on: string; readonly rows: readonly Row[] },
): Committed {
  const checks = [...new Set(again.map(keyOf))].map((key) => {
    const own = again.filter((row) => keyOf(row) === key);
    const distances = own.flatMap((row) => {
      const before = rows.find((one) => keyOf(one) === key && one.figure === row.figure && one.n === row.n);
      return before === undefined ? [] : distanceOf(before, row);
    });
    const checked: Check = {
      on,
      replicates: Math.max(...own.map(({ replicates }) => replicates)),
      figures: distances.length,
      apart: distances.filter((distance) => distance > 2).length,
      largest: digits(Math.max(0, ...distances)),
    };
    return [key, { ...runs[key]!, checked }] as const;
  });
  return { runs: { ...runs, ...Object.fromEntries(checks) }, rows };
}

/** How far two rows lie apart, in their common Monte Carlo error; none where one has no share, or neither an error. */
function distanceOf(one: Row, other: Row): number[] {
  const error = Math.hypot(one.monteCarloError ?? 0, other.monteCarloError ?? 0);
  return one.share === null || other.share === null || error === 0
    ? []
    : [Math.abs(one.share - other.share) / error];
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
