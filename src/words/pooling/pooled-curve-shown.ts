import type { Count } from "../../study/results.js";

/** A share by days, at one site. */
export interface SiteCurve {
  readonly site: string;
  /** Ascending by day. */
  readonly points: readonly { readonly day: number; readonly share: number }[];
  readonly lastDay: number;
  /** Whether the shares are known at the points only, as in a summary, and not between them. */
  readonly coarse: boolean;
}

/** Curves of sites with the pooled one, as the figure shows them. */
export interface PooledCurveShown {
  /** Names the files of the figure: letters, digits, hyphens. */
  readonly id: string;
  /** A question: "How long until full climbing, at each site and pooled?" */
  readonly title: string;
  /** "share back to full climbing" */
  readonly shareTitle: string;
  /** "weeks since the injury" */
  readonly timeTitle: string;
  readonly sites: readonly SiteCurve[];
  readonly pooled: {
    readonly points: readonly {
      readonly day: number;
      readonly share: number;
      readonly lower: number | null;
      readonly upper: number | null;
      /** Where the true share of a further site is expected on that day. */
      readonly prediction: { readonly lower: number; readonly upper: number } | null;
    }[];
    readonly lastDay: number;
    readonly coarse: boolean;
    readonly sites: number;
    readonly injuries: Count;
    /** How it was pooled, in a phrase. */
    readonly method: string;
    /** Where the injuries of all sites are taken as one group, each on its own; left out: pooled in two stages. */
    readonly asOneGroup?: true;
  };
  readonly level: number;
  readonly synthetic: boolean;
}
