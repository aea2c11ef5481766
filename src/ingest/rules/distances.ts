import { askAbout } from "../../schema/ask.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, enoughForAColumn, type LinkRule } from "./link-rule.js";
import { isExact, isOfInjured, type Reading } from "./readings.js";

/** What two readings share that were taken at one go, position and side apart. */
const occasion = ({ values: { date, pulley, rater, reading, taped } }: Reading): string =>
  `${date}\n${pulley}\n${rater ?? ""}\n${reading ?? ""}\n${taped ?? ""}`;

/** Loaded below rest; when that is so in most pairs of a file, one query more about the file. */
export const loadedBelowRest: LinkRule = function* ({ linked }) {
  const pairsOfFile = new Map<string, { pairs: number; below: number; example: Reading }>();
  for (const { imaging } of linked) {
    if (imaging.length < 2) continue;
    const groups = byKey(imaging.filter(isExact), (row) => `${occasion(row)}\n${isOfInjured(row)}`);
    for (const group of groups.values()) {
      const rest = group.find(({ values }) => values.position === "rest");
      if (rest === undefined) continue;
      for (const loaded of group) {
        if (loaded.values.position !== "loaded") continue;
        const count = pairsOfFile.get(loaded.file) ?? { pairs: 0, below: 0, example: loaded };
        pairsOfFile.set(loaded.file, count);
        count.pairs += 1;
        if (loaded.values.distance_mm >= rest.values.distance_mm) continue;
        count.below += 1;
        yield askAbout(loaded, {
          code: "loaded-below-rest",
          severity: "look-at",
          column: "distance_mm",
          found: loaded.values.distance_mm,
          facts: { rest: rest.values.distance_mm, other_row: rest.row },
        });
      }
    }
  }
  for (const { pairs, below, example } of pairsOfFile.values()) {
    if (pairs < enoughForAColumn || below * 2 <= pairs) continue;
    yield askAboutColumn(example, {
      code: "loaded-mostly-below-rest",
      column: "distance_mm",
      found: `${below} of ${pairs}`,
      facts: {},
    });
  }
};

/** The same distance to the digit on both sides. */
export const sidesEqual: LinkRule = function* ({ linked }) {
  for (const { imaging } of linked) {
    if (imaging.length < 2 || imaging.every(isOfInjured)) continue;
    for (const group of byKey(imaging, (row) => `${occasion(row)}\n${row.values.position}`).values()) {
      const other = group.find((row) => !isOfInjured(row));
      const same = group.find(
        (row) => isOfInjured(row) && row.values.distance_mm === other?.values.distance_mm,
      );
      if (other === undefined || same === undefined) continue;
      yield askAbout(same, {
        code: "sides-equal",
        severity: "look-at",
        column: "distance_mm",
        found: same.values.distance_mm,
        facts: { other_row: other.row },
      });
    }
  }
};

/** A pulley measured on the injured side that is not among the injured ones. */
export const pulleyNotInjured: LinkRule = function* ({ linked }) {
  for (const { injury, imaging } of linked) {
    for (const row of imaging) {
      if (!isOfInjured(row) || injury.values.pulleys.includes(row.values.pulley)) continue;
      yield askAbout(row, {
        code: "imaging-pulley-not-injured",
        severity: "look-at",
        column: "pulley",
        found: row.values.pulley,
        facts: { pulleys: injury.values.pulleys.join("|") },
      });
    }
  }
};
