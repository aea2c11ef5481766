import type { Json } from "./figure.js";
import { ink } from "./theme.js";

/** A layer of a specification. */
export type Layer = { readonly [key: string]: Json };

/** A mark at a place given in pixels. Those of a panel that stand side by side become one layer a kind (`fixed-layers.ts`). */
export interface FixedMark {
  readonly fixed: FixedKind;
  readonly look: Layer;
}

/** The kinds in the order in which they are drawn over one another. */
export const fixedKinds = ["rect", "rule", "point", "text"] as const;
export type FixedKind = (typeof fixedKinds)[number];

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

/** A text at a place given in pixels. */
export const textAt = ({ x, y, text, size, weight, colour, align, baseline }: TextMark): FixedMark => ({
  fixed: "text",
  look: {
    x,
    y,
    text,
    fontSize: size,
    lineHeight: lineHeight(size),
    fontWeight: weight ?? "normal",
    color: colour ?? ink.text,
    align: align ?? "left",
    baseline: baseline ?? "middle",
  },
});

interface Corners {
  readonly x: number;
  readonly x2: number;
  readonly y: number;
  readonly y2: number;
}

/** A straight line between two places given in pixels. */
export const ruleAt = (ends: Corners, look: Layer): FixedMark => ({
  fixed: "rule",
  look: { ...ends, ...look },
});

/** A rectangle given in pixels. */
export const rectAt = (corners: Corners, look: Layer): FixedMark => ({
  fixed: "rect",
  look: { ...corners, ...look },
});

/** A point at a place given in pixels. */
export const pointAt = (place: { readonly x: number; readonly y: number }, look: Layer): FixedMark => ({
  fixed: "point",
  look: { ...place, opacity: 1, ...look },
});

/** Area in square pixels of a mark of that diameter, as the chart format wants it. */
export const areaOf = (diameter: number): number => Math.round((Math.PI / 4) * diameter ** 2);
