import type { Count } from "../../study/results.js";
import type { Unit } from "../units.js";

/** One site's own answer and its part in the pooled one. Both doors fill it: rows of several sites, and summaries. */
export interface SiteAnswer {
  /** As readers see it. */
  readonly site: string;
  readonly injuries: Count;
  /** Injuries with the milestone observed; null where the measure counts none. */
  readonly events: Count | null;
  readonly people: Count;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Part in the pooled answer, 0 to 1; 0 for a site left out. */
  readonly weight: number;
  /** Why there is no estimate or interval, or why the site is left out, in words for readers. */
  readonly reason: string | null;
}

/** Two limits on the scale of the measure, or none and the reason in words. */
export interface LimitsShown {
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: string | null;
}

/** A measure pooled over sites, as figures and tables show it. */
export interface PooledShown {
  /** Names the files of the figure: letters, digits, hyphens. */
  readonly id: string;
  /** A question: "How many were back to full climbing by week 13?" */
  readonly title: string;
  /** What the axis counts, with its unit: "share back to full climbing by week 13, per cent". */
  readonly axisTitle: string;
  readonly unit: Unit;
  /** Of a comparison: the value of no difference, and who does better on either side of it; null for a figure of one group. */
  readonly compared: {
    readonly nullValue: number;
    readonly leftSide: string;
    readonly rightSide: string;
  } | null;
  readonly sites: readonly SiteAnswer[];
  readonly pooled: {
    readonly estimate: number | null;
    readonly interval: LimitsShown;
    /** Where the true answer of a further site is expected. */
    readonly prediction: LimitsShown;
    /** Sites, injuries and people in it. */
    readonly sites: number;
    readonly injuries: Count;
    readonly people: Count;
    /** How it was pooled, in a phrase: "random effects, restricted likelihood". */
    readonly method: string;
  };
  readonly level: number;
  readonly synthetic: boolean;
}
