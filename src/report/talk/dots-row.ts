import { type Safe, trusted } from "../escape.js";
import { type Dots, dotsInRow } from "./dots.js";

const radius = 8;
/** Room for each dot, and a gap after every fifth, so that they can be counted at a glance. */
const room = 19.5;
const gap = 9;
const height = 26;

const middleOf = (i: number): number => 10 + i * room + Math.floor(i / 5) * gap;
const width = middleOf(dotsInRow - 1) + 10;

/** What a dot stands for. A range has stripes of its own, dark on light and light on dark, so that no colour is needed to see it. */
export type DotKind = "back" | "back-in-range" | "not-in-range" | "not";

const kindOf = (i: number, { back, from, to }: Dots): DotKind => {
  const isInRange = i >= from && i < to;
  if (i < back) return isInRange ? "back-in-range" : "back";
  return isInRange ? "not-in-range" : "not";
};

/** Three strokes at an angle of 45 degrees inside a dot, as a path about its middle. */
const stripes = [-5, 0, 5]
  .map((off) => {
    const half = Math.sqrt((radius - 1.2) ** 2 - (off * off) / 2) / Math.SQRT2;
    const at = (x: number, y: number) => `${x.toFixed(1)},${y.toFixed(1)}`;
    return `M${at(off / 2 - half, off / 2 + half)}L${at(off / 2 + half, off / 2 - half)}`;
  })
  .join("");

const dot = (kind: DotKind, x: number, y: number): string => {
  const circle = `<circle class="dot ${kind}" cx="${x}" cy="${y}" r="${radius}"/>`;
  return kind === "back-in-range" || kind === "not-in-range"
    ? `${circle}<path class="stripes ${kind}" d="${stripes}" transform="translate(${x} ${y})"/>`
    : circle;
};

/** One dot by itself, for the explanation of the signs. */
export const sampleDot = (kind: DotKind): Safe =>
  trusted(
    `<svg class="sample" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false">${dot(kind, 10, 10)}</svg>`,
  );

/** A share as a row of twenty dots, for the eye: the words beside it say the same. */
export function dotsRow(dots: Dots): Safe {
  const all = Array.from({ length: dotsInRow }, (_, i) => dot(kindOf(i, dots), middleOf(i), height / 2));
  return trusted(
    `<svg class="dots" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" aria-hidden="true" focusable="false">${all.join("")}</svg>`,
  );
}
