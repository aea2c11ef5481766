import type { FigureText } from "../words/figures/figure-text.js";

/** What a specification is made of. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A chart specification in Vega-Lite's format: a plain object, ready to be stored, edited and drawn elsewhere. */
export interface VegaLiteSpec {
  readonly $schema: string;
  readonly [key: string]: Json;
}

/** A figure as data: what to draw, and what to say to those who cannot see it. */
export interface Figure extends FigureText {
  readonly spec: VegaLiteSpec;
}
