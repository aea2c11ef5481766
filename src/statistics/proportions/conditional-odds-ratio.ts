import type { Reason } from "../shared/figure.js";
import type { LevelOption } from "../shared/options.js";
import { checkColumnNames, levelOption, readOptions } from "../shared/options.js";
import { rootBetween } from "../shared/root.js";
import { checkFourCells, type FourCells, fourCellsNames } from "./four-cells.js";
import { type Margins, marginsOf, stepUp } from "./hypergeometric.js";

/** Odds ratio given the margins, with its exact interval. */
export interface ConditionalOddsRatio {
  /** Null where it is 0 or infinite, see `limit`. */
  readonly estimate: number | null;
  /** 0 where the first cell is as small as it can be. */
  readonly lower: number | null;
  /** Null where the first cell is as large as it can be: no upper bound. */
  readonly upper: number | null;
  readonly level: number;
  readonly reason: Reason | null;
  readonly limit: "zero" | "infinity" | null;
}

/** Mean of the first cell, and the tails at an observed one, under an odds ratio. */
interface UnderOdds {
  readonly mean: number;
  readonly atMost: number;
  readonly atLeast: number;
}

/** The likeliest first cell under a log odds ratio: where the ratio of neighbours passes 1, found by halving. */
function modeUnder(margins: Margins, logOdds: number): number {
  let low = margins.least;
  let high = margins.most;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (Math.log(stepUp(middle, margins)) + logOdds >= 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Sums outward from the mode, each side until its terms no longer count and the observed cell has been passed. */
function under(margins: Margins, { logOdds, a }: { logOdds: number; a: number }): UnderOdds {
  const mode = modeUnder(margins, logOdds);
  const odds = Math.exp(logOdds);
  let total = 0;
  let moment = 0;
  let atMost = 0;
  let atLeast = 0;
  const add = (x: number, term: number): void => {
    total += term;
    moment += (x - mode) * term;
    if (x <= a) atMost += term;
    if (x >= a) atLeast += term;
  };
  let term = 1;
  for (let x = mode; x <= margins.most && (term > 1e-20 * total || (x <= a && term > 0)); x++) {
    add(x, term);
    term *= stepUp(x, margins) * odds;
  }
  term = 1 / (stepUp(mode - 1, margins) * odds);
  for (let x = mode - 1; x >= margins.least && (term > 1e-20 * total || (x >= a && term > 0)); x--) {
    add(x, term);
    term /= stepUp(x - 1, margins) * odds;
  }
  return { mean: mode + moment / total, atMost: atMost / total, atLeast: atLeast / total };
}

/** Root of a rising function of the log odds ratio, looked for outward from a start in steps that double. */
function crossing(
  rising: (logOdds: number) => number,
  from: { readonly start: number; readonly step: number },
): number {
  const { start, step } = from;
  let width = step;
  let low = start;
  let high = start;
  while (rising(low) > 0) {
    low -= width;
    width *= 2;
  }
  width = step;
  while (rising(high) < 0) {
    high += width;
    width *= 2;
  }
  return low === high ? low : rootBetween(rising, [low, high]);
}

/**
 * Odds ratio by conditional maximum likelihood, all margins given, with its exact interval. It is not a d / (b c).
 *
 * Estimate: the odds ratio under which the mean first cell is the observed one. Limits: those under which a first cell as large, and as
 * small, has half the error as probability.
 *
 * @returns `no-rows` where a group is empty; `not-positive` where a margin is 0 (one table only, nothing to be said) or where the
 *   estimate is 0 or infinite, then with the limit that there is
 * @throws ArgumentError naming the cell that is no whole number, or the level
 * @source Cornfield 1956, Proc Third Berkeley Symp 4:135
 */
export function conditionalOddsRatio(table: FourCells, options: LevelOption = {}): ConditionalOddsRatio {
  checkColumnNames(fourCellsNames, { table });
  const { level } = readOptions(levelOption, options);
  checkFourCells(table);
  const margins = marginsOf(table);
  const { least, most, n1, n2 } = margins;
  if (least === most) {
    const reason = n1 === 0 || n2 === 0 ? "no-rows" : "not-positive";
    return { estimate: null, lower: null, upper: null, level, reason, limit: null };
  }
  const { a } = table;
  const logTail = Math.log((1 - level) / 2);
  const [one, two, three, four] = [table.a, table.b, table.c, table.d].map((cell) => cell + 0.5) as [
    number,
    number,
    number,
    number,
  ];
  const from = {
    start: Math.log(one / two) - Math.log(three / four),
    // about a standard error: the first steps must not land where the observed table is out of reach
    step: Math.sqrt(1 / one + 1 / two + 1 / three + 1 / four),
  };
  const at = (logOdds: number): UnderOdds => under(margins, { logOdds, a });
  const solve = (rising: (logOdds: number) => number): number => Math.exp(crossing(rising, from));
  const limit = a === least ? "zero" : a === most ? "infinity" : null;
  return {
    estimate: limit ? null : solve((logOdds) => at(logOdds).mean - a),
    lower: a === least ? 0 : solve((logOdds) => Math.log(at(logOdds).atLeast) - logTail),
    upper: a === most ? null : solve((logOdds) => logTail - Math.log(at(logOdds).atMost)),
    level,
    reason: limit ? "not-positive" : null,
    limit,
  };
}
