import { type GroupStyle, groupStyles } from "./group-style.js";

/** Sizes in CSS pixels, 96 to the inch, of a figure for one use, and what is drawn of it. */
export interface Theme {
  readonly name: Preset;
  readonly width: number;
  /** Height of the whole figure where it is given; null to take what it needs. */
  readonly height: number | null;
  /** Height of the panel with the curves, at least. */
  readonly plotHeight: number;
  readonly font: { readonly base: number; readonly small: number; readonly title: number };
  /** Width of a curve; of thin lines, such as an axis. */
  readonly line: number;
  readonly thin: number;
  /** Diameter of a point. */
  readonly point: number;
  /** Where the names of the groups stand: beside the plot, or above the numbers where the page is narrow. */
  readonly names: "beside" | "above";
  readonly shown: Shown;
  /** Looks of the groups, in their order. */
  readonly styles: readonly GroupStyle[];
}

/** What of a figure is drawn. */
export interface Shown {
  readonly title: boolean;
  /** A title instead of the figure's own. */
  readonly ownTitle: string | null;
  /** Sentences under the figure: all, the cautions alone, or none, where the caption has them. */
  readonly notes: "all" | "cautions" | "none";
  /** Confidence limits of curves. */
  readonly band: boolean;
  /** Numbers at risk under the curves. */
  readonly atRisk: boolean;
  /** Usual windows of the grades. */
  readonly windows: boolean;
}

export const presets = ["screen", "slide", "poster", "one-column", "two-columns"] as const;
/** Where a figure is shown. */
export type Preset = (typeof presets)[number];

const everything: Shown = {
  title: true,
  ownTitle: null,
  notes: "all",
  band: true,
  atRisk: true,
  windows: true,
};

/** Pixels of a width in millimetres. */
const pixels = (millimetres: number): number => (millimetres * 96) / 25.4;

/**
 * Figures at their final size. The slide has the proportions 16 : 9 and no text below 18 points, so that the last row reads it; the
 * panel of a poster is 400 mm wide with no text below 24 points; a journal's columns are 85 and 180 mm wide with texts of 7 to 9
 * points (common practice, no source).
 */
export const themes = {
  screen: {
    name: "screen",
    width: 760,
    height: null,
    plotHeight: 300,
    font: { base: 13, small: 12, title: 19 },
    line: 2.2,
    thin: 1,
    point: 9,
    names: "beside",
    shown: everything,
    styles: groupStyles,
  },
  slide: {
    name: "slide",
    width: 1280,
    height: 720,
    plotHeight: 200,
    font: { base: 26, small: 24, title: 32 },
    line: 4,
    thin: 1.6,
    point: 16,
    names: "beside",
    shown: { ...everything, notes: "cautions" },
    styles: groupStyles,
  },
  poster: {
    name: "poster",
    width: pixels(400),
    height: null,
    plotHeight: 600,
    font: { base: 36, small: 32, title: 54 },
    line: 6,
    thin: 2.4,
    point: 24,
    names: "beside",
    shown: { ...everything, notes: "cautions" },
    styles: groupStyles,
  },
  "one-column": {
    name: "one-column",
    width: pixels(85),
    height: null,
    plotHeight: 170,
    font: { base: 10.4, small: 9.4, title: 12 },
    line: 1.4,
    thin: 0.6,
    point: 5.5,
    names: "above",
    shown: { ...everything, title: false, notes: "none" },
    styles: groupStyles,
  },
  "two-columns": {
    name: "two-columns",
    width: pixels(180),
    height: null,
    plotHeight: 240,
    font: { base: 10.6, small: 9.4, title: 12 },
    line: 1.5,
    thin: 0.7,
    point: 6.5,
    names: "beside",
    shown: { ...everything, title: false, notes: "none" },
    styles: groupStyles,
  },
} as const satisfies Record<Preset, Theme>;

/** Colours that carry no group. */
export const ink = {
  text: "#1a1a1a",
  muted: "#555555",
  axis: "#767676",
  grid: "#e4e4e4",
  single: "#b0b0b0",
  band: "#e9e6df",
  paper: "#ffffff",
  synthetic: "#9b1c1c",
  /** The mark of invented data behind a plot. */
  syntheticPale: "#ecd3d3",
} as const;
