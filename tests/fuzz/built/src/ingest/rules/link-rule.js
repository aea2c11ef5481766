/** Puts each injury together with the rows that name it. */
export function linkRows(tables) {
    const treatments = byKey(tables.treatments, injuryNamed);
    const imaging = byKey(tables.imaging, injuryNamed);
    const visits = byKey(tables.visits, injuryNamed);
    const linked = tables.injuries.map((injury) => {
        const name = injury.values.injury_id;
        return {
            injury,
            treatments: treatments.get(name) ?? [],
            imaging: imaging.get(name) ?? [],
            visits: visits.get(name) ?? [],
        };
    });
    return { tables, linked };
}
const injuryNamed = ({ values }) => values.injury_id;
/** Rows by a key, each list in the order of the rows. */
export function byKey(rows, keyOf) {
    const groups = new Map();
    for (const row of rows) {
        const key = keyOf(row);
        const group = groups.get(key);
        if (group === undefined)
            groups.set(key, [row]);
        else
            group.push(row);
    }
    return groups;
}
/** The middle value; the mean of the two middle ones where their number is even. */
export function median(values) {
    const sorted = [...values].sort((one, other) => one - other);
    const middle = Math.floor(sorted.length / 2);
    return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
/** Fewer values than this do not show how a column is filled (our choice). */
export const enoughForAColumn = 5;
