/** What a specification is made of. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A chart specification in Vega-Lite's format: a plain object, ready to be stored, edited and drawn elsewhere. */
export interface VegaLiteSpec {
  readonly $schema: string;
  readonly [key: string]: Json;
}

/** A figure as data: what to draw, and what to say to those who cannot see it. */
export interface Figure {
  /** Safe as a file name: small letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly subtitle: string;
  /** Text alternative: what is shown, with the main numbers. */
  readonly description: string;
  readonly spec: VegaLiteSpec;
  /** The data are invented; the drawing says so. */
  readonly synthetic: boolean;
  /** Shows single injuries, not only aggregates: think before it leaves the site. */
  readonly individual: boolean;
}
