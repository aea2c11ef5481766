/** Longer cells are cut: a query is not the place for a whole file. */
const longestFound = 200;
/** A cell as a query repeats it. */
export const foundText = (text) => text.length > longestFound ? `${text.slice(0, longestFound)}…` : text;
/** The query about a typed row that a doubt amounts to; columns go by what the file calls them. */
export function askAbout({ file, row, values, columnNames }, { code, severity, column, found, facts = {}, }) {
    return {
        code,
        severity,
        file,
        row,
        column: columnNames?.[column] ?? column,
        found: found === null ? null : foundText(String(found)),
        facts,
        injury: injuryOf(values),
    };
}
function injuryOf(values) {
    const injury = values.injury_id;
    return typeof injury === "string" ? injury : null;
}
