import { askAbout } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import { datedIn, surelyBefore } from "../../schema/rules/dated.js";
import { byKey } from "./link-rule.js";
/** How many rows a query lists at most. */
const rowsListed = 10;
/**
 * Rows that share the key of another: all of them, since none can be trusted. Rows that are set aside for another
 * reason count too.
 *
 * @param cells every row of the file
 * @param key the columns that together name a row
 */
export function identifierTwice(cells, key) {
    if (key.length === 0)
        return () => [];
    const keyOf = (row) => key.map((column) => tidy(row.cells[column] ?? "")).join("\n");
    const twice = namesMetTwice(cells.map(keyOf));
    const doubtful = byKey(cells.filter((row) => twice.has(keyOf(row))), keyOf);
    const repeated = new Map([...doubtful].flatMap(([name, rows]) => rows.map((row) => [row.row, { name, rows }])));
    return (row) => {
        const found = repeated.get(row.row);
        if (found === undefined)
            return [];
        const rows = found.rows.slice(0, rowsListed).map((other) => other.row);
        const more = found.rows.length > rowsListed ? " and more" : "";
        return [
            askAbout(row, {
                code: "identifier-twice",
                severity: "set-aside",
                column: key.at(-1) ?? "",
                found: found.name.replaceAll("\n", ", "),
                facts: { rows: `${rows.join(", ")}${more}` },
            }),
        ];
    };
}
function namesMetTwice(names) {
    const met = new Set();
    return new Set(names.filter((name) => met.size === met.add(name).size));
}
export const injuriesByName = (rows) => new Map(rows.map(({ values }) => [values.injury_id, values]));
/** Rows that name an injury which is not there, or which is set aside. */
export function injuryMustBeUsed(used, everyInjury) {
    const everyName = new Map(everyInjury.map((row) => [tidy(row.cells.injury_id ?? ""), row]));
    return (row) => {
        const name = row.values.injury_id;
        if (used.has(name))
            return [];
        const injury = everyName.get(name);
        return [
            askAbout(row, {
                code: injury === undefined ? "row-without-injury" : "injury-set-aside",
                severity: "set-aside",
                column: "injury_id",
                found: name,
                facts: injury === undefined ? {} : { injury_row: injury.row, injury_file: injury.file },
            }),
        ];
    };
}
/** Rows dated before their injury, as far as the precision of its date allows to tell. */
export function notBeforeInjury(injuries, column) {
    return (row) => {
        const injury = injuries.get(row.values.injury_id);
        const found = datedIn(row.values, { column });
        if (injury === undefined || found === null)
            return [];
        const day = datedIn(injury, { column: "injury_date", precision: "injury_date_precision" });
        if (day === null || !surelyBefore(found, day))
            return [];
        const facts = { injury_date: day.date };
        return [
            askAbout(row, { code: "event-before-injury", severity: "set-aside", column, found: found.date, facts }),
        ];
    };
}
