import { tidy } from "../../schema/cells/reading.js";
import { tables } from "../../schema/tables.js";
import { byKey } from "../rules/link-rule.js";
/** Columns that tell rows of a table apart, beyond its key. */
const identifying = {
    injuries: ["injury_id", "person_id", "site_id", "injury_date", "hand", "finger"],
    treatments: ["injury_id", "treatment", "kind", "start_date"],
    imaging: ["injury_id", "date", "pulley", "position", "side", "rater", "reading", "taped"],
    visits: ["injury_id", "date", "kind"],
    sites: ["site_id"],
    single_sheet: ["person", "site", "injury_date", "hand", "finger"],
};
/**
 * Names every row by its cells as they stand in the file: by the table's key where that names one row, else by the
 * identifying cells, else by all its cells, and rows that are the same in all by their order. So a row keeps its name
 * when rows are sorted or added, and rows that cannot be told apart never pass an answer on to each other.
 */
export function rowNames(files) {
    const named = new Map();
    for (const [table, { file, read }] of files)
        named.set(file, { table, rows: namesIn(read.rows, table) });
    const injuries = files.get("injuries")?.read.rows ?? [];
    const persons = new Map(injuries.map((row) => [cellOf(row, "injury_id"), personIn(row)]));
    return {
        of: ({ file, row, injury }) => {
            const known = named.get(file);
            const table = known?.table ?? file;
            if (row === null)
                return { table, rowName: null, person: null };
            const found = known?.rows.get(row);
            if (found === undefined)
                return { table, rowName: "not read", person: null };
            const ofInjury = persons.get(found.injury === "" ? (injury ?? "") : found.injury) ?? null;
            return { table, rowName: found.name, person: found.person ?? ofInjury };
        },
    };
}
const cellOf = ({ cells }, column) => tidy(cells[column] ?? "");
function personIn(row) {
    const person = cellOf(row, "person_id") || cellOf(row, "person");
    return person === "" ? null : person;
}
function namesIn(rows, table) {
    const { key } = tables[table];
    const written = (columns) => (row) => JSON.stringify(columns.map((column) => [column, cellOf(row, column)]));
    const whole = (row) => JSON.stringify(Object.entries(row.cells).filter(([, cell]) => tidy(cell) !== ""));
    const byTheKey = key.length === 0 ? () => "" : written(key);
    const hasKey = (row) => key.length > 0 && key.every((column) => cellOf(row, column) !== "");
    const names = new Map();
    const name = (row, text) => names.set(row.row, { name: text, person: personIn(row), injury: cellOf(row, "injury_id") });
    // each step names what it can tell apart, and leaves the rest to the next
    const left = singledOut(rows.filter(hasKey), { nameOf: byTheKey, name });
    const keyless = rows.filter((row) => !hasKey(row));
    const alike = singledOut([...left, ...keyless], { nameOf: written(identifying[table]), name });
    for (const group of byKey(alike, whole).values()) {
        for (const [place, row] of group.entries())
            name(row, group.length === 1 ? whole(row) : `${whole(row)} ${place + 1}`);
    }
    return names;
}
/** Names the rows that a name singles out; hands back the others. */
function singledOut(rows, { nameOf, name, }) {
    const groups = byKey(rows, nameOf);
    return [...groups.entries()].flatMap(([text, group]) => {
        if (group.length > 1)
            return group;
        name(group[0], text);
        return [];
    });
}
