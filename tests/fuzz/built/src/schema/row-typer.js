import { foundText } from "./ask.js";
import { cellReaderOf } from "./cells/read-cell.js";
import { blank, problem, tidy } from "./cells/reading.js";
import { quickReaderOf } from "./quick-reader.js";
/**
 * The typer of a table's rows: each cell is read by the kind of its field and held against the schema of the field.
 * All doubts about a row are asked, in the order of the fields; a field in doubt is null.
 *
 * @param options columns: where the columns of the table stand in a row, those not in the file left out;
 *   ask: takes every doubt
 */
export function rowTyper(table, { columns, dateOrder, ask, }) {
    const placeOf = new Map(columns.map(({ name, place }) => [name, place]));
    const read = table.fields
        .filter(({ name, required }) => required || placeOf.has(name))
        .map((field) => {
        const place = placeOf.get(field.name) ?? notInFile;
        return {
            field,
            place,
            quick: quickReaderOf(field),
            read: checkedReaderOf(table, { field, dateOrder }),
        };
    });
    // all fields in the order of the schema, so that every row has the same shape
    const blankRow = Object.fromEntries(table.fields.map(({ name }) => [name, null]));
    const injuryPlace = placeOf.get("injury_id") ?? notInFile;
    return (entries, { file, row }) => {
        const values = { ...blankRow };
        let reason = null;
        for (const { field, place, quick, read: readFully } of read) {
            const cell = entries[place] ?? "";
            const quickly = cell === "" ? undefined : quick(cell);
            if (quickly !== undefined) {
                values[field.name] = quickly;
                continue;
            }
            const reading = cell === "" ? blank : readFully(cell);
            if ("value" in reading && (reading.value !== null || !field.required)) {
                values[field.name] = reading.value;
                continue;
            }
            const doubt = "problem" in reading ? reading : missing(field);
            const query = queryAbout(doubt, { field, cell, file, row, injury: entries[injuryPlace] ?? "" });
            ask(query);
            if (query.severity === "set-aside")
                reason ??= query;
        }
        return reason ?? { file, row, values: values };
    };
}
/** No row has an entry in this place. */
const notInFile = -1;
const missing = ({ example }) => problem("value-missing", { example });
/** How many readings of a column are remembered: sheets repeat themselves. */
const remembered = 5_000;
/** Reads a cell and holds the value against the schema of its field; what the schema refuses is a problem. */
function checkedReaderOf(table, { field, dateOrder }) {
    const read = cellReaderOf(field, dateOrder);
    const schema = table.row.shape[field.name];
    const known = new Map();
    return (cell) => {
        const before = known.get(cell);
        if (before !== undefined)
            return before;
        const reading = heldAgainst(schema, { field, reading: read(cell) });
        if (known.size < remembered)
            known.set(cell, reading);
        return reading;
    };
}
function heldAgainst(schema, { field, reading }) {
    if ("problem" in reading || reading.value === null)
        return reading;
    const issue = schema.safeParse(reading.value).error?.issues[0];
    if (issue === undefined)
        return reading;
    return problemOfIssue(issue, field);
}
/** What the schema holds against a value that could be read. */
function problemOfIssue(issue, field) {
    const isNumber = field.kind === "number" || field.kind === "integer";
    const unit = field.unit === undefined ? {} : { unit: field.unit };
    if (isNumber && (issue.code === "too_small" || issue.code === "too_big")) {
        return problem("number-out-of-range", {
            minimum: field.minimum ?? "",
            maximum: field.maximum ?? "",
            ...unit,
        });
    }
    if (isNumber && issue.code === "invalid_type")
        return problem("number-not-whole");
    if (issue.code === "too_big")
        return problem("text-too-long", { longest: Number(issue.maximum) });
    return problem("value-not-accepted", { example: field.example });
}
function queryAbout({ problem: code, facts }, { field, cell, file, row, injury, }) {
    const name = tidy(injury);
    return {
        code,
        severity: field.required || field.blankSays !== undefined ? "set-aside" : "look-at",
        file,
        row,
        column: field.name,
        found: foundText(tidy(cell)),
        facts: field.blankSays === undefined ? facts : { ...facts, blankSays: field.blankSays },
        injury: name === "" ? null : foundText(name),
    };
}
