import { ArgumentError, checkColumn } from "../../shared/arguments.js";

/** What a site sends of its rows at a point: sums over them, from which nobody's row can be told. */
export interface SiteSums {
  /** Rows, those with the event, and different people. */
  readonly n: number;
  readonly events: number;
  readonly persons: number;
  readonly logLikelihood: number;
  /** First derivatives by the parameters. */
  readonly score: readonly number[];
  /** Minus the second derivatives, by rows; symmetric. */
  readonly information: readonly (readonly number[])[];
  /** Sum over people of the outer product of their scores; null where it was not asked for. */
  readonly squares: readonly (readonly number[])[] | null;
}

/** Flat and symmetric, as an array of rows in the units of the parameters. @param units by what each parameter is multiplied */
export const rowsInUnits = (matrix: ArrayLike<number>, units: ArrayLike<number>): number[][] =>
  Array.from({ length: units.length }, (_, j) =>
    Array.from({ length: units.length }, (__, k) => matrix[j * units.length + k]! * units[j]! * units[k]!),
  );

/** @throws ArgumentError where the point has not as many numbers as there are parameters */
export function checkPoint(point: ArrayLike<number>, parameters: number): void {
  checkColumn({ name: "point", values: point }, "finite");
  if (point.length !== parameters)
    throw new ArgumentError({
      argument: "point",
      index: null,
      expected: `as long as there are parameters (${parameters})`,
      found: `${point.length} values`,
    });
}

/** @throws ArgumentError for a point so far away that the likelihood of the rows is no number there */
export function heldSums(sums: SiteSums): SiteSums {
  const { logLikelihood, score, information, squares } = sums;
  const all = [logLikelihood, ...score, ...information.flat(), ...(squares ?? []).flat()];
  if (all.every(Number.isFinite)) return sums;
  throw noNumberThere();
}

/** A point at which the rows have no likelihood in numbers. */
export const noNumberThere = (): ArgumentError =>
  new ArgumentError({
    argument: "point",
    index: null,
    expected: "near enough that the likelihood of these rows is a number there",
    found: "one at which it is none",
  });
