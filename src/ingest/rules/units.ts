import { askAbout } from "../../schema/ask.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, enoughForAColumn, type LinkRule } from "./link-rule.js";
import { ascending, median, middleOf, middleWithout } from "./medians.js";
import { distanceColumn, distanceOf, isExact, isOfInjured, type Reading } from "./readings.js";

/** A value so many times another, or its like below it, may have lost or gained a decimal place (our choice). */
const tenfold = 8;
/** The medians of two raters lie so far apart only where they write different units (our choice). */
const otherUnit = 5;

const isTenfold = (value: number, usual: number): boolean =>
  value > 0 && usual > 0 && (value >= tenfold * usual || usual >= tenfold * value);

/**
 * A distance that is about ten times, or a tenth of, what is usual: the median of the other readings of the same
 * injury, side and position where there are two or more, else that of the column.
 */
export const distanceTenfold: LinkRule = function* ({ tables, linked }) {
  const columns = new Map(
    [...byKey(tables.imaging.filter(isExact), positionInColumn)]
      .filter(([, rows]) => rows.length >= enoughForAColumn)
      .map(([name, rows]) => [name, median(rows.map(distanceOf))]),
  );
  for (const { imaging } of linked) {
    const ofOthers = medianOfOthers(imaging);
    for (const row of imaging) {
      const usual = ofOthers(row) ?? columns.get(positionInColumn(row));
      if (usual === undefined || !isTenfold(distanceOf(row), usual)) continue;
      yield askAbout(row, {
        code: "distance-tenfold",
        severity: "look-at",
        column: "distance_mm",
        found: distanceOf(row),
        facts: { usual: rounded(usual) },
      });
    }
  }
};

const positionInColumn = (row: Reading): string => `${distanceColumn(row)}\n${row.values.position}`;

/** The median of the other readings of side and position, where there are two or more. */
function medianOfOthers(imaging: readonly Reading[]): (row: Reading) => number | null {
  if (imaging.length < 3) return () => null;
  const sorted = new Map(
    [...byKey(imaging.filter(isExact), sideAndPosition)].map(([name, rows]) => [
      name,
      ascending(rows.map(distanceOf)),
    ]),
  );
  return (row) => {
    const alike = sorted.get(sideAndPosition(row)) ?? new Float64Array(0);
    const own = Float64Array.from(isExact(row) ? [distanceOf(row)] : []);
    return alike.length - own.length >= 2 ? middleWithout(alike, own) : null;
  };
}

const sideAndPosition = ({ values: { side, position } }: Reading): string => `${side}\n${position}`;

/** Medians outside these look like another unit, mm. */
const usualMedians: Readonly<Record<string, { readonly from: number; readonly to: number }>> = {
  loaded: { from: 0.8, to: 9 },
  rest: { from: 0.2, to: 6 },
};

/** A column whose distances are as a whole too small or too large for millimetres. */
export const distanceUnitDoubtful: LinkRule = function* ({ tables }) {
  for (const rows of byKey(tables.imaging.filter(isOfInjured), positionInColumn).values()) {
    const { position } = rows[0]!.values;
    const usual = usualMedians[position];
    if (usual === undefined || rows.length < enoughForAColumn) continue;
    const middle = median(rows.map(distanceOf));
    if (middle >= usual.from && middle <= usual.to) continue;
    yield askAboutColumn(rows[0]!, {
      code: "distance-unit-doubtful",
      column: "distance_mm",
      found: String(rounded(middle)),
      facts: { position },
    });
  }
};

/** A rater whose loaded distances are a fifth of, or five times, those of the others. */
export const raterUnitDoubtful: LinkRule = function* ({ tables }) {
  const loaded = tables.imaging.filter(
    (row) => isExact(row) && isOfInjured(row) && row.values.position === "loaded",
  );
  for (const rows of byKey(loaded, ({ file }) => file).values()) {
    const raters = byKey(
      rows.filter(({ values }) => values.rater !== null),
      ({ values }) => values.rater!,
    );
    const all = ascending(rows.map(distanceOf));
    for (const [rater, own] of raters) {
      if (own.length < enoughForAColumn || rows.length - own.length < enoughForAColumn) continue;
      const distances = ascending(own.map(distanceOf));
      const [middle, usual] = [middleOf(distances), middleWithout(all, distances)];
      if (middle * otherUnit > usual && middle < otherUnit * usual) continue;
      yield askAboutColumn(own[0]!, {
        code: "rater-unit-doubtful",
        column: "rater",
        found: rater,
        facts: { middle: rounded(middle), usual: rounded(usual), n: own.length },
      });
    }
  }
};

/** Medians of two values may have many digits. */
const rounded = (value: number): number => Number(value.toPrecision(6));
