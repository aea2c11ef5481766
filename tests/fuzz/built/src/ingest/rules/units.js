import { askAbout } from "../../schema/ask.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, enoughForAColumn, median } from "./link-rule.js";
/** A value so many times another, or its like below it, may have lost or gained a decimal place (our choice). */
const tenfold = 8;
/** The medians of two raters lie so far apart only where they write different units (our choice). */
const otherUnit = 5;
const isExact = ({ values }) => values.bound === null || values.bound === "exact";
const distanceOf = ({ values }) => values.distance_mm;
const isTenfold = (value, usual) => value > 0 && usual > 0 && (value >= tenfold * usual || usual >= tenfold * value);
/**
 * A distance that is about ten times, or a tenth of, what is usual: the median of the other readings of the same
 * injury, side and position where there are two or more, else that of the column.
 */
export const distanceTenfold = function* ({ tables, linked }) {
    const inColumn = (row) => JSON.stringify([row.file, row.columnNames?.distance_mm, row.values.position]);
    const columns = new Map([...byKey(tables.imaging.filter(isExact), inColumn)]
        .filter(([, rows]) => rows.length >= enoughForAColumn)
        .map(([name, rows]) => [name, median(rows.map(distanceOf))]));
    for (const { imaging } of linked) {
        for (const row of imaging) {
            const { side, position } = row.values;
            const others = imaging.filter((other) => other !== row && isExact(other) && other.values.side === side && other.values.position === position);
            const usual = others.length >= 2 ? median(others.map(distanceOf)) : columns.get(inColumn(row));
            if (usual === undefined || !isTenfold(distanceOf(row), usual))
                continue;
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
/** Medians outside these look like another unit, mm. */
const usualMedians = {
    loaded: { from: 0.8, to: 9 },
    rest: { from: 0.2, to: 6 },
};
/** A column whose distances are as a whole too small or too large for millimetres. */
export const distanceUnitDoubtful = function* ({ tables }) {
    const ofInjured = tables.imaging.filter(({ values }) => values.side !== "other");
    const column = (row) => JSON.stringify([row.file, row.columnNames?.distance_mm, row.values.position]);
    for (const rows of byKey(ofInjured, column).values()) {
        const { position } = rows[0].values;
        const usual = usualMedians[position];
        if (usual === undefined || rows.length < enoughForAColumn)
            continue;
        const middle = median(rows.map(distanceOf));
        if (middle >= usual.from && middle <= usual.to)
            continue;
        yield askAboutColumn(rows[0], {
            code: "distance-unit-doubtful",
            column: "distance_mm",
            found: String(rounded(middle)),
            facts: { position },
        });
    }
};
/** A rater whose loaded distances are a fifth of, or five times, those of the others. */
export const raterUnitDoubtful = function* ({ tables }) {
    const loaded = tables.imaging.filter((row) => isExact(row) && row.values.side !== "other" && row.values.position === "loaded");
    for (const rows of byKey(loaded, ({ file }) => file).values()) {
        const raters = byKey(rows.filter(({ values }) => values.rater !== null), ({ values }) => values.rater);
        for (const [rater, own] of raters) {
            const others = rows.filter(({ values }) => values.rater !== rater);
            if (own.length < enoughForAColumn || others.length < enoughForAColumn)
                continue;
            const [middle, usual] = [median(own.map(distanceOf)), median(others.map(distanceOf))];
            if (middle * otherUnit > usual && middle < otherUnit * usual)
                continue;
            yield askAboutColumn(own[0], {
                code: "rater-unit-doubtful",
                column: "rater",
                found: rater,
                facts: { middle: rounded(middle), usual: rounded(usual), n: own.length },
            });
        }
    }
};
/** Medians of two values may have many digits. */
const rounded = (value) => Number(value.toPrecision(6));
