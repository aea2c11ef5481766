import { ArgumentError, checkIsColumn, checkSameLength } from "../../shared/arguments.js";
import { checkColumnNames, type NamesOf, shown } from "../../shared/options.js";
import type { PoolingReason } from "./pooling-reason.js";

/** One row a site: its own answer on a common scale, and how sure it is. */
export interface SiteEstimates {
  /** null where a site has none; infinite where it is without limit. Such a site is left out and named. */
  readonly estimates: ArrayLike<number | null>;
  /** Squared standard errors, on the scale of the estimates squared; null where a site has none, infinite where it tells nothing. */
  readonly variances: ArrayLike<number | null>;
}

export const siteEstimatesNames: NamesOf<SiteEstimates> = { estimates: true, variances: true };

/** A site that cannot be pooled, by its place in the columns. */
export interface SiteLeftOut {
  readonly site: number;
  readonly reason: PoolingReason;
}

/** The sites that can be pooled, and the others. */
export interface UsableSites {
  /** Rows of the columns, used and left out. */
  readonly given: number;
  /** Places in the columns of those used, ascending. */
  readonly places: readonly number[];
  readonly y: Float64Array;
  readonly v: Float64Array;
  readonly leftOut: readonly SiteLeftOut[];
}

interface Allowed {
  readonly name: string;
  readonly expected: string;
  readonly least: number;
}

function checkEach(values: ArrayLike<unknown>, { name, expected, least }: Allowed): void {
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value === null || (typeof value === "number" && value >= least)) continue;
    throw new ArgumentError({ argument: name, index: i, expected, found: shown(value) });
  }
}

/** @throws ArgumentError naming column and index of a value that is no number, or of a negative variance */
export function checkSiteEstimates(columns: SiteEstimates): void {
  const first = { name: "estimates", values: columns.estimates as ArrayLike<number> };
  const second = { name: "variances", values: columns.variances as ArrayLike<number> };
  checkIsColumn(first);
  checkSameLength(second, first);
  const orNull = "or null where the site has none";
  checkEach(first.values, { name: "estimates", expected: `a number, ${orNull}`, least: -Infinity });
  checkEach(second.values, { name: "variances", expected: `a number, 0 or more, ${orNull}`, least: 0 });
}

function whyNot(estimate: number | null, variance: number | null): PoolingReason | null {
  if (estimate === null) return "no-estimate";
  if (variance === null || variance === 0) return "no-variance";
  return Number.isFinite(estimate) && Number.isFinite(variance) ? null : "not-finite";
}

/**
 * Sites with a finite estimate and a finite variance above 0, and the others with the reason.
 *
 * A variance of 0 would give a site all the weight there is: no site is so sure, so it is left out as one without an error.
 *
 * @throws ArgumentError naming column and index of a value that is no number, or of a negative variance
 */
export function usableSites(columns: SiteEstimates): UsableSites {
  checkColumnNames(siteEstimatesNames, { columns });
  checkSiteEstimates(columns);
  const { estimates, variances } = columns;
  const places: number[] = [];
  const leftOut: SiteLeftOut[] = [];
  for (let site = 0; site < estimates.length; site++) {
    const reason = whyNot(estimates[site]!, variances[site]!);
    if (reason === null) places.push(site);
    else leftOut.push({ site, reason });
  }
  return {
    given: estimates.length,
    places,
    y: Float64Array.from(places, (site) => estimates[site]!),
    v: Float64Array.from(places, (site) => variances[site]!),
    leftOut,
  };
}

/** Weights of the sites used as shares of all, in the places of the columns; 0 for a site left out. */
export function weightShares({ given, places }: UsableSites, weights: ArrayLike<number>): readonly number[] {
  const shares = new Array<number>(given).fill(0);
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]!;
  places.forEach((site, i) => {
    shares[site] = weights[i]! / sum;
  });
  return shares;
}

/** The usable sites but one, by its place among them. */
export function withoutSite({ given, places, y, v, leftOut }: UsableSites, place: number): UsableSites {
  const stays = (_: unknown, i: number): boolean => i !== place;
  return { given, places: places.filter(stays), y: y.filter(stays), v: v.filter(stays), leftOut };
}
