/** Sizes in CSS pixels, 96 to the inch, of a figure for one use. */
export interface Theme {
  readonly name: "screen" | "slide" | "poster" | "journal";
  readonly width: number;
  /** Height that the figure is stretched to where it is lower; null to take what it needs. */
  readonly height: number | null;
  /** Height of the panel with the curves, at least. */
  readonly plotHeight: number;
  readonly font: { readonly base: number; readonly small: number; readonly title: number };
  /** Width of a curve; of thin lines, such as an axis. */
  readonly line: number;
  readonly thin: number;
  /** Diameter of a point. */
  readonly point: number;
}

/**
 * Figures for the four places they are shown in. The slide has the proportions 16 : 9; the journal's width is that
 * of two columns, 174 mm, with no text below 7 points (common practice, no source).
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
  },
  slide: {
    name: "slide",
    width: 1280,
    height: 720,
    plotHeight: 210,
    font: { base: 20, small: 18, title: 31 },
    line: 3.6,
    thin: 1.5,
    point: 14,
  },
  poster: {
    name: "poster",
    width: 1400,
    height: null,
    plotHeight: 560,
    font: { base: 26, small: 23, title: 40 },
    line: 4.6,
    thin: 2,
    point: 18,
  },
  journal: {
    name: "journal",
    width: 658,
    height: null,
    plotHeight: 240,
    font: { base: 10.5, small: 9.5, title: 13 },
    line: 1.5,
    thin: 0.7,
    point: 6.5,
  },
} as const satisfies Record<Theme["name"], Theme>;

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
} as const;
