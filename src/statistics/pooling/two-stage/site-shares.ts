import { ArgumentError, checkIsColumn, checkSameLength } from "../../shared/arguments.js";
import { checkColumnNames, type NamesOf, shown } from "../../shared/options.js";
import type { SiteEstimates, SiteLeftOut } from "./site-estimates.js";

/**
 * Shares of sites as counts. Where follow-up ends early or people have several fingers, effective numbers, with a fraction: of a share p with
 * the variance V the effective size is p (1 - p) / V, the effective events p times that; where p is 0 or 1 its variance says nothing, and
 * the number of people at risk is the size.
 */
export interface SiteShares {
  /** With the event, 0 to the size; null where a site has none to give. */
  readonly events: ArrayLike<number | null>;
  /** All, above 0; null where a site has none to give. */
  readonly sizes: ArrayLike<number | null>;
}

export const siteSharesNames: NamesOf<SiteShares> = { events: true, sizes: true };

export interface UsableShares {
  readonly given: number;
  readonly places: readonly number[];
  readonly events: Float64Array;
  readonly sizes: Float64Array;
  readonly leftOut: readonly SiteLeftOut[];
}

function refuse(
  argument: string,
  index: number,
  { expected, found }: { expected: string; found: unknown },
): never {
  throw new ArgumentError({ argument, index, expected, found: shown(found) });
}

function checkShares({ events, sizes }: SiteShares): void {
  const first = { name: "events", values: events as ArrayLike<number> };
  checkIsColumn(first);
  checkSameLength({ name: "sizes", values: sizes as ArrayLike<number> }, first);
  for (let i = 0; i < sizes.length; i++) {
    const [event, size] = [events[i] as unknown, sizes[i] as unknown];
    const isSize = typeof size === "number" && size >= 0 && size < Infinity;
    if (size !== null && !isSize)
      refuse("sizes", i, {
        expected: "a finite number, 0 or more, or null where the site has none",
        found: size,
      });
    const most = isSize ? size : Infinity;
    if (event === null || (typeof event === "number" && event >= 0 && event <= most && event < Infinity))
      continue;
    const expected = `from 0 to the site's size${isSize ? ` (${size})` : ""}, or null where it has none`;
    refuse("events", i, { expected, found: event });
  }
}

/** @throws ArgumentError naming column and index of a size that is negative, or of events that are more than the size */
export function usableShares(columns: SiteShares): UsableShares {
  checkColumnNames(siteSharesNames, { columns });
  checkShares(columns);
  const { events, sizes } = columns;
  const places: number[] = [];
  const leftOut: SiteLeftOut[] = [];
  for (let site = 0; site < sizes.length; site++) {
    const [event, size] = [events[site]!, sizes[site]!];
    if (event !== null && size !== null && size > 0) places.push(site);
    else leftOut.push({ site, reason: size === 0 ? "no-rows" : "no-estimate" });
  }
  return {
    given: sizes.length,
    places,
    events: Float64Array.from(places, (site) => snapped(events[site]!, sizes[site]!)),
    sizes: Float64Array.from(places, (site) => sizes[site]!),
    leftOut,
  };
}

/** Effective numbers come from a division: an end missed by rounding would send the log odds without limit after it. */
const roundingOf = (size: number): number => 1e-12 + 4 * Number.EPSILON * size;

/** Events that are all or none but for rounding are all or none. */
function snapped(events: number, size: number): number {
  if (events <= roundingOf(size)) return 0;
  return size - events <= roundingOf(size) ? size : events;
}

/**
 * Shares of sites as log odds with their variances, for methods that take estimates: heterogeneity, subgroups, regression on what describes
 * the sites. Half an event is added on both sides at every site, which takes away most of the bias of a small site and leaves a site where
 * all or none have the event with an estimate.
 *
 * log((x + 1/2) / (m - x + 1/2)), variance 1 / (x + 1/2) + 1 / (m - x + 1/2). The pooled share itself comes from `pooledShare`, which needs
 * no half.
 *
 * @returns null for a site without counts
 * @throws ArgumentError naming column and index of a size that is negative, or of events that are more than the size
 * @source Gart & Zweifel 1967, Biometrika 54:181
 * @example
 * logOddsOfShares({ events: [5], sizes: [10] }).estimates // => [0]
 */
export function logOddsOfShares(columns: SiteShares): SiteEstimates {
  const { given, places, events, sizes } = usableShares(columns);
  const estimates = new Array<number | null>(given).fill(null);
  const variances = new Array<number | null>(given).fill(null);
  places.forEach((site, i) => {
    const [yes, no] = [events[i]! + 0.5, sizes[i]! - events[i]! + 0.5];
    estimates[site] = Math.log(yes / no);
    variances[site] = 1 / yes + 1 / no;
  });
  return { estimates, variances };
}

/** Shares of two groups at each site. */
export interface SharesOfTwoGroups {
  readonly a: SiteShares;
  readonly b: SiteShares;
}

const sharesOfTwoGroupsNames: NamesOf<SharesOfTwoGroups> = { a: true, b: true };

/** p (1 - p) / (m + 2) at p = (x + 1) / (m + 2). */
function drawnIn(events: number, size: number): number {
  const p = (events + 1) / (size + 2);
  return (p * (1 - p)) / (size + 2);
}

/**
 * Differences a - b of shares of sites with their variances, for methods that take estimates.
 *
 * The difference is the site's own; its variance is that of shares with an event added on both sides, so that a site of six in which
 * everybody or nobody is back has one that is not 0, and small sites do not weigh the more the further their shares happen to lie from one half.
 *
 * @returns null for a site without counts in either group
 * @throws ArgumentError naming column and index of a size that is negative, or of events that are more than the size
 * @source variance: Agresti & Caffo 2000, Am Stat 54:280
 * @example
 * differencesOfShares({ a: { events: [5], sizes: [10] }, b: { events: [2], sizes: [8] } }).estimates // => [0.25]
 */
export function differencesOfShares(columns: SharesOfTwoGroups): SiteEstimates {
  checkColumnNames(sharesOfTwoGroupsNames, { columns });
  const [a, b] = [usableShares(columns.a), usableShares(columns.b)];
  checkSameLength(
    { name: "b.sizes", values: columns.b.sizes as ArrayLike<number> },
    { name: "a.sizes", values: columns.a.sizes as ArrayLike<number> },
  );
  const estimates = new Array<number | null>(a.given).fill(null);
  const variances = new Array<number | null>(a.given).fill(null);
  a.places.forEach((site, i) => {
    const j = b.places.indexOf(site);
    if (j < 0) return;
    const [ofA, ofB] = [a.events[i]! / a.sizes[i]!, b.events[j]! / b.sizes[j]!];
    estimates[site] = ofA - ofB;
    variances[site] = drawnIn(a.events[i]!, a.sizes[i]!) + drawnIn(b.events[j]!, b.sizes[j]!);
  });
  return { estimates, variances };
}
