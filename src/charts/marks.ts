import type { Json } from "./figure.js";
import { ink } from "./theme.js";

export type Layer = { readonly [key: string]: Json };

/** One datum, for what stands at a fixed place. */
const once: Json = { values: [{}] };

export interface TextMark {
  readonly x: number;
  /** Baseline or middle of the first line, as `baseline` says. */
  readonly y: number;
  readonly text: string | readonly string[];
  readonly size: number;
  readonly weight?: "normal" | "bold";
  readonly colour?: string;
  readonly align?: "left" | "center" | "right";
  readonly baseline?: "middle" | "top" | "alphabetic";
}

/** Distance of two lines of text of one paragraph. */
export const lineHeight = (size: number): number => Math.round(size * 1.3);

/**
 * A text at a place given in pixels. It stands in the data: written into the mark, the chart library would look it up
 * among the names of its own objects, and a text such as `constructor` is one of them.
 */
export const textAt = ({ x, y, text, size, weight, colour, align, baseline }: TextMark): Layer => ({
  data: { values: [{ text }] },
  encoding: { text: { field: "text" } },
  mark: {
    type: "text",
    x,
    y,
    fontSize: size,
    lineHeight: lineHeight(size),
    fontWeight: weight ?? "normal",
    color: colour ?? ink.text,
    align: align ?? "left",
    baseline: baseline ?? "middle",
  },
});

/** A straight line between two places given in pixels. */
export const ruleAt = (
  { x, x2, y, y2 }: { readonly x: number; readonly x2: number; readonly y: number; readonly y2: number },
  look: Layer,
): Layer => ({
  data: once,
  mark: { type: "rule", ...look },
  encoding: {
    x: { value: x },
    x2: { value: x2 },
    y: { value: y },
    ...(y2 === y ? {} : { y2: { value: y2 } }),
  },
});

/** A rectangle given in pixels. */
export const rectAt = (
  corners: { readonly x: number; readonly x2: number; readonly y: number; readonly y2: number },
  look: Layer,
): Layer => ({ data: once, encoding: {}, mark: { type: "rect", ...corners, ...look } });

/** A point at a place given in pixels. */
export const pointAt = (place: { readonly x: number; readonly y: number }, look: Layer): Layer => ({
  data: once,
  encoding: {},
  mark: { type: "point", ...place, opacity: 1, ...look },
});

/** Area in square pixels of a mark of that diameter, as the chart format wants it. */
export const areaOf = (diameter: number): number => Math.round((Math.PI / 4) * diameter ** 2);
