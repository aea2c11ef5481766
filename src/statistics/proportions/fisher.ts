import { checkColumnNames } from "../shared/options.js";
import { checkFourCells, type FourCells, fourCellsNames } from "./four-cells.js";
import {
  hypergeometricDensity,
  hypergeometricLowerTail,
  hypergeometricUpperTail,
  type Margins,
  marginsOf,
  modeOf,
} from "./hypergeometric.js";

/** Exact test of a table of four cells. */
export interface FisherTest {
  /** Tables no likelier than the observed one. */
  readonly twoSided: number;
  /** First cell at most, and at least, the observed one. */
  readonly less: number;
  readonly greater: number;
  /** Two-sided, tables as likely as the observed one counted half. */
  readonly midP: number;
}

/** Probabilities this close, relatively, are equal: rounding must not decide. */
const slack = 1e-7;

/**
 * Exact test of independence in a table of four cells, all margins given.
 *
 * Two-sided: the tables no likelier than the observed one, with a relative slack of 1e-7. Mid-p: those as likely counted half. Counts may
 * be large: only the tables that add anything are visited.
 *
 * @returns p-values of 1 (mid-p 1/2) where a margin is 0: there is one table only
 * @throws ArgumentError naming the cell that is no whole number
 * @source Fisher 1935, J R Stat Soc 98:39; mid-p: Lancaster 1961, J Am Stat Assoc 56:223
 * @example
 * fisher({ a: 3, b: 1, c: 1, d: 3 }).twoSided // => 0.4857142857142857
 */
export function fisher(table: FourCells): FisherTest {
  checkColumnNames(fourCellsNames, { table });
  checkFourCells(table);
  const margins = marginsOf(table);
  const own = hypergeometricDensity(table.a, margins);
  const notLikelier = tablesUpTo(own * (1 + slack), margins);
  const lessLikely = tablesUpTo(own * (1 - slack), margins);
  return {
    twoSided: Math.min(1, notLikelier),
    less: Math.min(1, hypergeometricLowerTail(table.a, margins)),
    greater: Math.min(1, hypergeometricUpperTail(table.a, margins)),
    midP: Math.min(1, (notLikelier + lessLikely) / 2),
  };
}

/** P(tables whose probability is at most the bound): two tails, since probabilities fall from the mode on either side. */
function tablesUpTo(bound: number, margins: Margins): number {
  const mode = modeOf(margins);
  const isUnlikely = (x: number): boolean => hypergeometricDensity(x, margins) <= bound;
  if (isUnlikely(mode)) return 1;
  const below = edge({ likely: mode, beyond: margins.least - 1 }, isUnlikely);
  const above = edge({ likely: mode, beyond: margins.most + 1 }, isUnlikely);
  return hypergeometricLowerTail(below, margins) + hypergeometricUpperTail(above, margins);
}

/** The unlikely table next to the likely ones, found by halving. */
function edge(
  ends: { readonly likely: number; readonly beyond: number },
  isUnlikely: (x: number) => boolean,
): number {
  let { likely, beyond } = ends;
  while (Math.abs(beyond - likely) > 1) {
    const middle = Math.floor((likely + beyond) / 2);
    if (isUnlikely(middle)) beyond = middle;
    else likely = middle;
  }
  return beyond;
}
