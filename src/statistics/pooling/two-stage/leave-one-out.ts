import { readOptions } from "../../shared/options.js";
import {
  type RandomEffects,
  type RandomEffectsOptions,
  randomEffectsOf,
  randomEffectsOptions,
} from "./random-effects.js";
import { type SiteEstimates, usableSites, withoutSite } from "./site-estimates.js";

/** The pooled answer without one site, by its place in the columns. */
export interface WithoutSite {
  readonly site: number;
  readonly pooled: RandomEffects;
}

/**
 * The pooled answer once without each site in turn: whether it hangs on one of them.
 *
 * @param columns as in `randomEffects`; a site that cannot be pooled has no entry, its reason stands in every `pooled.leftOut`
 * @returns one entry a site used, in the order of the columns; its weights keep the places of the columns, 0 for the site left out
 * @throws ArgumentError naming column and index of a value that is no number, or of a negative variance; or an option
 * @source Viechtbauer & Cheung 2010, Res Synth Methods 1:112
 * @example
 * leaveOneOut({ estimates: [1, 2, 6], variances: [1, 1, 1] }).map(({ pooled }) => pooled.estimate) // => [4, 3.5, 1.5]
 */
export function leaveOneOut(
  columns: SiteEstimates,
  options: RandomEffectsOptions = {},
): readonly WithoutSite[] {
  const chosen = readOptions(randomEffectsOptions, options);
  const sites = usableSites(columns);
  return sites.places.map((site, place) => ({
    site,
    pooled: randomEffectsOf(withoutSite(sites, place), chosen),
  }));
}
