import { checkColumn } from "../../shared/arguments.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  checkResult,
  list,
  needed,
  number,
  type OptionsOf,
  readOptions,
} from "../../shared/options.js";
import { type Candidate, candidatesOf } from "./candidates.js";
import { type VisitColumns, type Visits, visitColumnsNames, visitsOf } from "./columns.js";
import { type MassRows, maximiseMasses } from "./masses.js";

const intervalIncidenceOptions = {
  /** Largest miss of the conditions for the maximum, as a part of the total weight. Default 1e-6. */
  tolerance: number("positive", 1e-6),
  /** Default 20,000. */
  maximumIterations: number("count", 20_000),
};

export interface IntervalIncidenceOptions extends OptionsOf<typeof intervalIncidenceOptions> {}

/** Intervals that hold mass, ascending; within each the data do not say where it sits. */
export interface MassIntervals {
  /** Open end; -1: from before time 0. The time itself where `exact`. */
  readonly from: readonly number[];
  /** Closed end; null where the interval has none. */
  readonly to: readonly (number | null)[];
  readonly exact: readonly boolean[];
  readonly mass: readonly number[];
}

export interface IncidenceOfEnd extends MassIntervals {
  readonly end: number;
  /** Share with this end from `to` on. */
  readonly incidenceAfter: readonly number[];
}

export interface IntervalIncidence {
  /** In order of the ends' codes. */
  readonly ends: readonly IncidenceOfEnd[];
  /** Mass of which no row tells the end: of those still without one at `from`, or gone before others entered. */
  readonly open: MassIntervals;
  readonly n: number;
  readonly total: number;
  readonly logLikelihood: number | null;
  /** How far the conditions for the maximum are missed, as a part of the total weight. */
  readonly distanceFromMaximum: number | null;
  readonly iterations: number;
  readonly converged: boolean;
  readonly reason: Reason | null;
}

const holding = (
  candidates: readonly Candidate[],
  masses: Float64Array,
): MassIntervals & { readonly kept: number[] } => {
  const kept = candidates.map((_, j) => j).filter((j) => masses[j]! > negligible);
  return {
    kept,
    from: kept.map((j) => candidates[j]!.from),
    to: kept.map((j) => (Number.isFinite(candidates[j]!.to) ? candidates[j]!.to : null)),
    exact: kept.map((j) => candidates[j]!.exact),
    mass: kept.map((j) => masses[j]!),
  };
};

/** Mass below this is what the iterations left of none. */
const negligible = 1e-9;
/** A late entry at which less than this share is left: the curve has come down before it. */
const nothingLeft = 1e-6;

function rowsOf(visits: Visits, lists: readonly (readonly Candidate[])[]): MassRows {
  const { left, right, ends, endCodes } = visits;
  const firstAfter = (list: readonly Candidate[], time: number): number => {
    const at = list.findIndex(({ from, exact }) => (exact ? from > time : from >= time));
    return at < 0 ? list.length : at;
  };
  const rows = Array.from({ length: visits.n }, (_, row) => row).filter((row) => visits.weights[row]! > 0);
  return {
    sizes: lists.map((list) => list.length),
    weight: Float64Array.from(rows, (row) => visits.weights[row]!),
    held: rows.map((row) => {
      if (ends[row] === 0)
        return lists.map((list, i) => ({
          list: i,
          first: firstAfter(list, left[row]!),
          last: list.length,
        }));
      const place = endCodes.indexOf(ends[row]!);
      const list = lists[place]!;
      const inside = ({ from, to, exact }: Candidate): boolean =>
        left[row] === right[row]
          ? exact && from === left[row]
          : (exact ? from > left[row]! : from >= left[row]!) && to <= right[row]!;
      const first = list.findIndex(inside);
      const last = list.findLastIndex(inside) + 1;
      return [{ list: place, first, last }];
    }),
    entered: rows.map((row) => {
      const entry = visits.entries?.[row] ?? 0;
      return entry > 0
        ? lists.map((list, i) => ({ list: i, first: firstAfter(list, entry), last: list.length }))
        : null;
    }),
  };
}

/**
 * Cumulative incidence of each of several ends from interval-censored times, with late entry, by non-parametric maximum likelihood: what the
 * data alone say.
 *
 * Maximises sum of w_i log(F_k(right_i) - F_k(left_i)), k the row's end, or log(1 - sum of F_k(left_i)) for a row without one, less
 * log(1 - sum of F_k(entry_i)) for a late entry, by self-consistency with extrapolated steps. Mass sits on each end's innermost intervals, and
 * where within one is not determined. With one end and no late entry this is intervalCurve.
 *
 * With late entry the curve is that of people still without an end at the earliest entry.
 *
 * @returns `no-rows`; `not-converged` with the figures reached; no masses with `too-few-rows` where so few entered early that the curve is
 *   down before others enter, which leaves nothing to say
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source Hudgens, Satten & Longini 2001, Biometrics 57:74; Groeneboom, Maathuis & Wellner 2008, Ann Stat 36:1031; late entry: Turnbull 1976,
 *   J R Stat Soc B 38:290; Frydman 1994, J R Stat Soc B 56:71; extrapolated steps: Varadhan & Roland 2008, Scand J Stat 35:335
 * @example
 * intervalIncidence({ left: [0, 2, 4], right: [3, 5, null], ends: [1, 2, 0] }).ends[0].to // => [3]
 */
export function intervalIncidence(
  columns: VisitColumns,
  options: IntervalIncidenceOptions = {},
): IntervalIncidence {
  checkColumnNames(visitColumnsNames, { columns });
  const precision = readOptions(intervalIncidenceOptions, options);
  const visits = visitsOf(columns);
  const { ofEnds, open } = candidatesOf(visits);
  const lists = [...ofEnds, open];
  const empty = !(visits.total > 0);
  const found = empty ? null : maximiseMasses(rowsOf(visits, lists), precision);
  const fallen = found !== null && found.leastLeft < nothingLeft;
  const masses = (place: number): Float64Array =>
    found === null || fallen ? new Float64Array(lists[place]!.length) : found.masses[place]!;
  const reason: Reason | null = empty
    ? "no-rows"
    : fallen
      ? "too-few-rows"
      : found?.converged
        ? null
        : "not-converged";
  const { kept: _, ...ofOpen } = holding(open, masses(ofEnds.length));
  return {
    ends: visits.endCodes.map((end, i) => {
      const { kept: __, ...own } = holding(ofEnds[i]!, masses(i));
      let sum = 0;
      return { end, ...own, incidenceAfter: own.mass.map((mass) => (sum += mass)) };
    }),
    open: ofOpen,
    n: visits.n,
    total: visits.total,
    logLikelihood: fallen ? null : (found?.logLikelihood ?? null),
    distanceFromMaximum: fallen ? null : (found?.distance ?? null),
    iterations: found?.iterations ?? 0,
    converged: empty || (found?.converged ?? false),
    reason,
  };
}

/** Share with an end by a time: between these two, which are equal where the data determine it. */
export interface IncidenceBounds {
  readonly time: number;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Why there are none. */
  readonly reason: Reason | null;
}

const boundsOptions = {
  /** Default 1. */
  end: number("positive count", 1),
  /** 0 or more, in any order. */
  times: needed(list<ArrayLike<number>>()),
};

export interface IncidenceBoundsOptions extends OptionsOf<typeof boundsOptions> {}

/**
 * Share with one end by given times, as the bounds between which the data leave it: mass of intervals closed by then, and of all begun. Open
 * mass counts towards the upper bound alone.
 *
 * @returns nulls where the estimate has no masses; 0 and the open mass for an end that was never seen
 * @throws ArgumentError for a time that is not finite or is negative
 * @source Hudgens, Satten & Longini 2001, Biometrics 57:74
 */
export function incidenceBounds(
  incidence: IntervalIncidence,
  options: IncidenceBoundsOptions,
): IncidenceBounds[] {
  checkResult({ incidence }, { expected: "a result of intervalIncidence", has: ["ends", "open"] });
  const { end, times } = readOptions(boundsOptions, options);
  checkColumn({ name: "times", values: times }, "not negative");
  const own = incidence.ends.find((one) => one.end === end);
  const none = incidence.open.mass.length === 0 && incidence.ends.every(({ mass }) => mass.length === 0);
  return Array.from(times, (time) => {
    if (none) return { time, lower: null, upper: null, reason: incidence.reason ?? "no-rows" };
    const closed = sumWhere(own, (from, to, exact) => (exact ? from <= time : to <= time));
    const begun = sumWhere(own, (from, _, exact) => (exact ? from <= time : from < time));
    const open = sumWhere(incidence.open, (from) => from < time);
    return { time, lower: closed, upper: Math.min(1, begun + open), reason: null };
  });
}

function sumWhere(
  intervals: MassIntervals | undefined,
  counts: (from: number, to: number, exact: boolean) => boolean,
): number {
  if (intervals === undefined) return 0;
  const { from, to, exact, mass } = intervals;
  return mass.reduce(
    (sum, own, j) => (counts(from[j]!, to[j] ?? Number.POSITIVE_INFINITY, exact[j]!) ? sum + own : sum),
    0,
  );
}
