import { askAbout } from "../../schema/ask.js";
import type { Pulley } from "../../schema/terms.js";
import type { InjuryWithRows, LinkRule } from "./link-rule.js";
import type { Reading } from "./readings.js";

/**
 * The widest loaded reading of the first day on which the injured side was scanned without tape, among the given
 * pulleys: later scans show healing, not the injury. Null where there is none.
 */
function widestAtFirst(imaging: readonly Reading[], pulleys: readonly Pulley[]): Reading | null {
  let widest: Reading | null = null;
  for (const row of imaging) {
    const { position, side, taped, pulley, date, distance_mm } = row.values;
    const counts = position === "loaded" && side !== "other" && taped !== "yes" && pulleys.includes(pulley);
    if (!counts) continue;
    const isEarlier = widest === null || date < widest.values.date;
    const isWider = widest !== null && date === widest.values.date && distance_mm > widest.values.distance_mm;
    if (isEarlier || isWider) widest = row;
  }
  return widest;
}

/** Grades that speak of a complete rupture, and the pulleys whose distance should show it. */
function pulleysToShow({ injury: { values } }: InjuryWithRows): readonly Pulley[] {
  return values.grade === "3" ? values.pulleys.filter((pulley) => pulley === "A2") : values.pulleys;
}

/** A complete rupture under the study's threshold, or a strain above it. */
export const distanceAgainstGrade: LinkRule = function* ({ linked }, { thresholdMm }) {
  for (const each of linked) {
    const { grade } = each.injury.values;
    const isStrain = grade === "1";
    if (each.imaging.length === 0 || grade === "2" || grade === "unknown") continue;
    const row = widestAtFirst(each.imaging, pulleysToShow(each));
    if (row === null) continue;
    const { distance_mm, bound } = row.values;
    const isOdd = isStrain
      ? distance_mm > thresholdMm && bound !== "below"
      : distance_mm < thresholdMm && bound !== "above";
    if (!isOdd) continue;
    yield askAbout(row, {
      code: "distance-against-grade",
      severity: "look-at",
      column: "distance_mm",
      found: distance_mm,
      facts: { grade, direction: isStrain ? "above" : "below", threshold: thresholdMm },
    });
  }
};

/** Common practice, no source: under this loaded distance bowstringing is hardly visible, mm. */
const hardlyVisible = 2;

/** Visible bowstringing with a small first loaded distance. */
export const bowstringingAgainstDistance: LinkRule = function* ({ linked }) {
  for (const { injury, imaging } of linked) {
    if (injury.values.bowstringing !== "visible" || imaging.length === 0) continue;
    const row = widestAtFirst(imaging, injury.values.pulleys);
    if (row === null || row.values.distance_mm >= hardlyVisible || row.values.bound === "above") continue;
    yield askAbout(row, {
      code: "bowstringing-against-distance",
      severity: "look-at",
      column: "distance_mm",
      found: row.values.distance_mm,
    });
  }
};
