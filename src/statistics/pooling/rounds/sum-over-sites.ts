import type { SiteSums } from "./site-sums.js";

type Matrix = readonly (readonly number[])[];

/**
 * Whether sites have an intercept, the first of each site's parameters: `none`: all parameters are shared; `by-site`: each site its own, the
 * others shared.
 */
export type SiteIntercepts = "none" | "by-site";

/** Sums of several sites, with each site's own intercept (where there are any) before the shared parameters. */
export interface SummedSites {
  readonly persons: number;
  readonly logLikelihood: number;
  readonly score: readonly number[];
  readonly information: Matrix;
  /** Null where a site sent none. */
  readonly squares: Matrix | null;
}

/** Place among all parameters of each parameter of a site. */
const placesOf = (site: number, { sites, own }: { sites: number; own: number }, intercepts: SiteIntercepts) =>
  Array.from({ length: own }, (_, j) => (intercepts === "none" ? j : j === 0 ? site : sites + j - 1));

/** Sum over sites of what the deletions of their people change; null where a site sent none. */
export function deletionsOverSites(bySite: readonly (Matrix | null)[]): Matrix | null {
  const [first, ...others] = bySite;
  if (first === undefined || first === null) return null;
  return others.reduce<Matrix | null>(
    (sum, own) =>
      sum === null || own === null ? null : sum.map((row, j) => row.map((value, k) => value + own[j]![k]!)),
    first,
  );
}

/** @param sums of each site, in the order of the sites' intercepts */
export function sumOverSites(
  sums: readonly Omit<SiteSums, "n" | "events">[],
  intercepts: SiteIntercepts,
): SummedSites {
  const own = sums[0]?.score.length ?? 0;
  const sites = sums.length;
  const size = intercepts === "none" ? own : sites + Math.max(0, own - 1);
  const score = new Array<number>(size).fill(0);
  const square = () => Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const [information, squares] = [square(), square()];
  let [persons, logLikelihood] = [0, 0];
  let complete = true;
  sums.forEach((one, site) => {
    persons += one.persons;
    logLikelihood += one.logLikelihood;
    const places = placesOf(site, { sites, own }, intercepts);
    places.forEach((at, j) => {
      score[at]! += one.score[j]!;
      places.forEach((across, k) => {
        information[at]![across]! += one.information[j]![k]!;
        squares[at]![across]! += one.squares?.[j]?.[k] ?? 0;
      });
    });
    if (one.squares === null) complete = false;
  });
  return { persons, logLikelihood, score, information, squares: complete ? squares : null };
}
