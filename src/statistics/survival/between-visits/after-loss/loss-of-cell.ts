import type { Visits } from "../columns.js";
import { piecesFor } from "../curves-of-ends.js";
import type { EndModel, Piece } from "../end-model.js";
import { gradientsBy, incidenceOf, type Moved } from "../standardised-outputs.js";

/** The chances of loss in one cell of a group, on the days of its losses. */
export interface LossOfCell {
  /** Ascending. */
  readonly days: Float64Array;
  /** Of those without an end after each day. */
  readonly chances: Float64Array;
  /** How many those are, as expected under the models of the ends. */
  readonly atRisk: Float64Array;
  /** Derivatives of the chances by the parameters of each piece. */
  readonly gradients: ReadonlyMap<Piece, readonly Float64Array[]>;
  /** What a row adds to each chance: its derivative by the weight of the row, times that weight; null for rows of other cells. */
  readonly influence: (row: number) => Float64Array | null;
}

export interface CellAsked {
  readonly visits: Visits;
  readonly models: readonly EndModel[];
  /** Place of the group. */
  readonly group: number;
  /** Of the group, those of the cell. */
  readonly rows: readonly number[];
  /** Of each row, 1 where it was lost. */
  readonly lost: ArrayLike<number>;
  /** Losses from this time on are none. */
  readonly time: number;
}

/**
 * Chances of loss by the sets at risk: losses on a day over those still without an end after it. A row whose end came between two days of which the
 * loss lies between counts with the chance that its end came later, under the models of the ends.
 */
export function lossOfCell(asked: CellAsked): LossOfCell {
  const { visits, models, group, rows, lost, time } = asked;
  const isLost = (row: number): boolean => lost[row] === 1 && visits.left[row]! < time;
  const days = Float64Array.from(
    new Set(rows.filter(isLost).map((row) => Math.max(0, visits.left[row]!))),
  ).sort();
  const losses = new Float64Array(days.length);
  const dayOf = (row: number): number => days.indexOf(Math.max(0, visits.left[row]!));
  for (const row of rows) if (isLost(row)) losses[dayOf(row)]! += visits.weights[row]!;
  const stillOf = stillWithout({ ...asked, days });
  const atRiskUnder = (moved?: Moved): Float64Array => {
    const still = stillOf(moved);
    const sum = new Float64Array(days.length);
    for (const row of rows) {
      const own = still(row);
      for (let m = 0; m < days.length; m++) sum[m]! += visits.weights[row]! * own[m]!;
    }
    return sum;
  };
  const atRisk = atRiskUnder();
  const chancesOf = (of: Float64Array): Float64Array =>
    of.map((n, m) => (losses[m]! > 0 ? losses[m]! / n : 0));
  const chances = chancesOf(atRisk);
  const gradients = new Map<Piece, readonly Float64Array[]>();
  for (const piece of piecesFor(models, group))
    if (piece !== undefined)
      gradients.set(
        piece,
        gradientsBy(piece, { size: days.length, outputsAt: (moved) => chancesOf(atRiskUnder(moved)) }),
      );
  const stillAsFitted = stillOf();
  const influences = new Map<number, Float64Array>();
  const influence = (row: number): Float64Array => {
    const still = stillAsFitted(row);
    const at = isLost(row) ? dayOf(row) : -1;
    return chances.map(
      (chance, m) => (visits.weights[row]! * (Number(m === at) - chance * still[m]!)) / atRisk[m]!,
    );
  };
  const members = new Set(rows);
  return {
    days,
    chances,
    atRisk,
    gradients,
    influence: (row) => {
      if (!members.has(row)) return null;
      const own = influences.get(row) ?? influence(row);
      influences.set(row, own);
      return own;
    },
  };
}

/** Of a row, at each day: 1 where it was followed without an end after it, 0 where not yet or no longer, and between its days the chance of that. */
type StillWithout = (row: number) => Float64Array;

/** Steps over which the curves of the ends are taken, besides the days themselves. */
const panels = 64;

function stillWithout({
  visits,
  models,
  group,
  rows,
  days,
}: CellAsked & { readonly days: Float64Array }): (moved?: Moved) => StillWithout {
  const { left, right, ends, entries } = visits;
  const straddles = (row: number): boolean =>
    Number.isFinite(right[row]) && days.some((day) => left[row]! < day && day < right[row]!);
  const between = new Set(rows.filter(straddles));
  const last = Math.max(0, ...[...between].map((row) => right[row]!));
  const knots = Float64Array.from(
    new Set([
      0,
      ...days,
      ...[...between].flatMap((row) => [Math.max(0, left[row]!), right[row]!]),
      ...Array.from({ length: panels }, (_, i) => (last * (i + 1)) / panels),
    ]),
  ).sort();
  const placeOf = new Map(Array.from(knots, (day, k) => [day, k]));
  const incidence = (row: number, own: number, moved?: Moved): Float64Array =>
    incidenceOf(
      { values: visits.covariates.columns.map((column) => column[row]!) },
      { models, own, group, knots: { at: knots } },
      moved,
    );
  return (moved) => {
    const curves = new Map<string, Float64Array>();
    const curveOf = (row: number): Float64Array => {
      const own = models.findIndex(({ end }) => end === ends[row]);
      const key = [own, ...visits.covariates.columns.map((column) => column[row]!)].join(" ");
      const found = curves.get(key) ?? incidence(row, own, moved);
      curves.set(key, found);
      return found;
    };
    return (row) => {
      const entry = entries?.[row] ?? 0;
      const curve = between.has(row) ? curveOf(row) : null;
      const at = (day: number): number => curve![placeOf.get(day)!]!;
      return days.map((day) => {
        if (entry >= day && entry > 0) return 0;
        if (left[row]! >= day) return Number(right[row]! > day);
        if (right[row]! <= day || !Number.isFinite(right[row])) return 0;
        const from = Math.max(0, left[row]!);
        const mass = at(right[row]!) - at(from);
        // a level curve says nothing of when within the interval
        return mass > 1e-12 ? (at(right[row]!) - at(day)) / mass : (right[row]! - day) / (right[row]! - from);
      });
    };
  };
}
