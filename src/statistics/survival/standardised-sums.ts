import type { clusterIndex } from "../shared/clusters.js";
import { deltaVarianceOf, type Functional, influences } from "./functionals.js";
import type { PreparedEvent } from "./prepared-event.js";
import { squaresWithin } from "./restricted-mean.js";
import type { Cell, Pair } from "./standardised-cells.js";

/** What is standardised: the strata used, their weights adding up to 1. */
export interface Standardisable {
  /** How many rows there are. */
  readonly n: number;
  readonly clusters: ReturnType<typeof clusterIndex>;
  /** Whether rows weigh or belong together, so that the variance is the robust one. */
  readonly robust: boolean;
  readonly strata: readonly { readonly weight: number; readonly cells: Pair<Cell> }[];
}

/** A figure of one group within one stratum. */
export interface CellFigure {
  readonly value: number;
  /** By the delta method, rows taken as independent. */
  readonly variance: number;
  /** Derivative by the weight of each row, times that weight. */
  readonly influences: () => Float64Array;
}

/** The figure of a functional. */
export const figureOf = (prepared: PreparedEvent, functional: Functional): CellFigure => ({
  value: functional.value,
  variance: deltaVarianceOf(prepared, functional),
  influences: () => influences(prepared, functional),
});

/** A figure with the stratum's weight and the rows it is of. */
export interface WeightedFigure<Figure> {
  readonly weight: number;
  readonly cell: Cell;
  readonly figure: Figure;
}

/** The weighted sums of both groups. */
export interface StandardisedSums<Figure> {
  readonly cells: Pair<readonly WeightedFigure<Figure>[]>;
  readonly estimates: Pair<number>;
  /** By the delta method, rows taken as independent. */
  readonly naive: Pair<number>;
  /** Robust where rows weigh or belong together, else by the delta method. */
  readonly variances: Pair<number>;
  /** Of the difference, which is not their sum where somebody has rows in both groups. */
  readonly between: number;
}

/** Weighted sums over strata of a figure for both groups. */
export function standardisedSums<Figure extends CellFigure>(
  input: Standardisable,
  figureIn: (cell: Cell, group: 0 | 1) => Figure,
): StandardisedSums<Figure> {
  const { n, clusters, robust, strata } = input;
  const moved: Pair<Float64Array> = [new Float64Array(n), new Float64Array(n)];
  const figures = ([0, 1] as const).map((group) =>
    strata.map(({ weight, cells }): WeightedFigure<Figure> => {
      const cell = cells[group];
      const figure = figureIn(cell, group);
      if (robust) place(figure.influences(), { weight, rows: cell.rows, into: moved[group] });
      return { weight, cell, figure };
    }),
  );
  const both = (term: (one: WeightedFigure<Figure>) => number): Pair<number> => {
    const sumOf = (group: 0 | 1) => figures[group]!.reduce((sum, one) => sum + term(one), 0);
    return [sumOf(0), sumOf(1)];
  };
  const naive = both(({ weight, figure }) => weight * weight * figure.variance);
  const common = {
    cells: [figures[0]!, figures[1]!] as const,
    estimates: both(({ weight, figure }) => weight * figure.value),
    naive,
  };
  if (!robust) return { ...common, variances: naive, between: naive[0] + naive[1] };
  const difference = moved[1].map((value, row) => value - moved[0][row]!);
  return {
    ...common,
    variances: [squaresWithin(clusters, moved[0]), squaresWithin(clusters, moved[1])],
    between: squaresWithin(clusters, difference),
  };
}

/** How far each row moves the difference of the weighted sums, group 1 less group 0: its influence. */
export function differenceInfluences(
  { n, strata }: Standardisable,
  figure: (prepared: PreparedEvent) => Functional,
): Float64Array {
  const moved = new Float64Array(n);
  for (const { weight, cells } of strata)
    for (const group of [0, 1] as const) {
      const { prepared, rows } = cells[group];
      const signed = group === 1 ? weight : -weight;
      place(influences(prepared, figure(prepared)), { weight: signed, rows, into: moved });
    }
  return moved;
}

/** Weighted amounts of the rows of a cell, into the column of all rows. */
function place(
  amounts: Float64Array,
  { weight, rows, into }: { readonly weight: number; readonly rows: Int32Array; readonly into: Float64Array },
): void {
  for (let i = 0; i < amounts.length; i++) into[rows[i]!] = weight * amounts[i]!;
}
