import { colourDistance, contrastWithWhite, lab, linearLight, seenBy, sights } from "../../charts/colours.js";
import { type GroupStyle, groupStyles } from "../../charts/index.js";
import type { FigureSettings } from "./figure-settings.js";

/** Contrast with white that a text needs. @source Web Content Accessibility Guidelines 2.1, W3C 2018, 1.4.3 */
const leastContrast = 4.5;

/** Colours closer than this in L*a*b* are hard to tell apart as thin lines (common practice, no source). */
const leastDistance = 15;

/** One hue from dark to light, for groups that have an order, such as grades. */
const ordered = ["#081a3a", "#12305f", "#1f4686", "#2f5dac", "#4472c4", "#5f7391"];

/** Dark and less dark in turn: dashes and shapes tell the groups apart. */
const greys = ["#111111", "#6a6a6a", "#3d3d3d", "#757575", "#222222", "#5a5a5a"];

/** The looks of the groups in the chosen colours; dashes and shapes stay. */
export function stylesOf({ colours }: FigureSettings): readonly GroupStyle[] {
  if (colours === "standard") return groupStyles;
  const chosen = colours === "ordered" ? ordered : colours === "grey" ? greys : colours;
  const count = Math.max(chosen.length, groupStyles.length);
  return Array.from({ length: count }, (_, i) => ({
    ...groupStyles[i % groupStyles.length]!,
    colour: chosen[i % chosen.length]!,
  }));
}

/** What speaks against colours of the user's own, one sentence each; they are drawn all the same. */
export function colourWarnings({ colours }: FigureSettings, groups: number): readonly string[] {
  if (typeof colours === "string") return [];
  const used = colours.slice(0, Math.max(1, groups));
  const pale = used.flatMap((colour) => {
    const contrast = contrastWithWhite(linearLight(colour));
    return contrast < leastContrast
      ? [
          `${colour} is pale on white: contrast ${contrast.toFixed(1)} : 1, where a name in it needs ${leastContrast} : 1.`,
        ]
      : [];
  });
  const alike = used.flatMap((one, i) => used.slice(i + 1).flatMap((other) => likeness(one, other)));
  const few =
    colours.length < groups
      ? [
          `There are ${groups} groups and ${colours.length} colours: colours are used again; dashes and shapes differ.`,
        ]
      : [];
  return [...few, ...pale, ...alike];
}

function likeness(one: string, other: string): string[] {
  const apart = (sight: (typeof sights)[number]) =>
    colourDistance(lab(seenBy(sight, linearLight(one))), lab(seenBy(sight, linearLight(other))));
  const close = sights.filter((sight) => apart(sight) < leastDistance);
  if (close.length === 0) return [];
  const whom = close.includes("all cones") ? "" : ` with ${close.join(" or ")}`;
  return [`${one} and ${other} are hard to tell apart${whom}; dashes and shapes still differ.`];
}
