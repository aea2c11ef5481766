import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { RecordedTreatment } from "../../schema/terms.js";
import type { TreatmentRow } from "../../schema/treatments.js";
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

/** Treatments that a distance is read before and after. */
const changesDistance: ReadonlySet<RecordedTreatment> = new Set<RecordedTreatment>([
  "tape",
  "ring",
  "surgery",
]);

/**
 * An injury whose distance was first read after a treatment began that may change it. Where another position was read
 * before, the scan was in time and a value of it is missing, which is not asked here.
 */
export const firstDistanceAfterTreatment: LinkRule = function* ({ linked }) {
  for (const { treatments, imaging } of linked) {
    const start = firstStart(treatments);
    const [one, ...others] = imaging.filter(
      (row) => isOfInjured(row) && isExact(row) && row.values.taped !== "yes",
    );
    if (start === null || one === undefined) continue;
    const first = others.reduce(
      (earliest, row) => (row.values.date < earliest.values.date ? row : earliest),
      one,
    );
    if (first.values.date <= start.start_date) continue;
    yield askAbout(first, {
      code: "first-distance-after-treatment",
      severity: "look-at",
      column: "date",
      found: first.values.date,
      facts: start,
    });
  }
};

/** The treatment that may change the distance which began first, by its date; null where none has a date. */
function firstStart(
  treatments: readonly TypedRow<TreatmentRow>[],
): { readonly treatment: RecordedTreatment; readonly start_date: string } | null {
  const starts = treatments.flatMap(({ values: { treatment, start_date } }) =>
    changesDistance.has(treatment) && start_date !== null ? [{ treatment, start_date }] : [],
  );
  return starts.reduce<(typeof starts)[number] | null>(
    (first, one) => (first === null || one.start_date < first.start_date ? one : first),
    null,
  );
}

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
