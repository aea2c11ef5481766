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

/** A figure of one group within one stratum, with its variance by the delta method. */
export interface CellFigure {
  readonly weight: number;
  readonly prepared: PreparedEvent;
  readonly value: number;
  readonly variance: number;
}

/** The weighted sums of both groups. */
export interface StandardisedSums {
  readonly cells: Pair<readonly CellFigure[]>;
  readonly estimates: Pair<number>;
  /** By the delta method, rows taken as independent. */
  readonly naive: Pair<number>;
  /** Robust where rows weigh or belong together, else by the delta method. */
  readonly variances: Pair<number>;
  /** Of the difference, which is not their sum where somebody has rows in both groups. */
  readonly between: number;
}

const sumOf = (figures: readonly CellFigure[], term: (figure: CellFigure) => number): number =>
  figures.reduce((sum, figure) => sum + term(figure), 0);

/** Weighted sums over strata of a figure for both groups. */
export function standardisedSums(
  input: Standardisable,
  figure: (prepared: PreparedEvent) => Functional,
): StandardisedSums {
  const { n, clusters, robust, strata } = input;
  const moved: Pair<Float64Array> = [new Float64Array(n), new Float64Array(n)];
  const figures = ([0, 1] as const).map((group) =>
    strata.map(({ weight, cells }): CellFigure => {
      const { prepared, rows } = cells[group];
      const functional = figure(prepared);
      if (robust) place(influences(prepared, functional), { weight, rows, into: moved[group] });
      return { weight, prepared, value: functional.value, variance: deltaVarianceOf(prepared, functional) };
    }),
  );
  const both = (of: (figures: readonly CellFigure[]) => number): Pair<number> => [
    of(figures[0]!),
    of(figures[1]!),
  ];
  const naive = both((own) => sumOf(own, ({ weight, variance }) => weight * weight * variance));
  const common = {
    cells: [figures[0]!, figures[1]!] as const,
    estimates: both((own) => sumOf(own, ({ weight, value }) => weight * value)),
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

/** Weighted amounts of the rows of a cell, into the column of all rows. */
function place(
  amounts: Float64Array,
  { weight, rows, into }: { readonly weight: number; readonly rows: Int32Array; readonly into: Float64Array },
): void {
  for (let index = 0; index < amounts.length; index++) into[rows[index]!] = weight * amounts[index]!;
}
