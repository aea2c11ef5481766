import { askAbout } from "../../schema/ask.js";
import { scanPseudonym } from "../../schema/identifying/scan-pseudonym.js";
import { scanText } from "../../schema/identifying/scan-text.js";
import { tables as schemas } from "../../schema/tables.js";
const tableNames = [
    "injuries",
    "treatments",
    "imaging",
    "visits",
    "sites",
];
const textColumns = new Map(tableNames.map((name) => [
    name,
    schemas[name].fields.filter(({ kind }) => kind === "text").map((field) => field.name),
]));
/** Free texts that may tell who somebody is: the kind of thing and its place are told, the text is not. */
export const textMayIdentify = function* ({ tables }) {
    for (const name of tableNames) {
        const columns = textColumns.get(name);
        for (const row of tables[name]) {
            for (const column of columns)
                yield* doubtsAboutText(row, column);
        }
    }
};
function* doubtsAboutText(row, column) {
    const text = row.values[column];
    if (typeof text !== "string")
        return;
    const kinds = new Map();
    for (const place of scanText(text))
        if (!kinds.has(place.kind))
            kinds.set(place.kind, place);
    for (const [kind, { from }] of kinds) {
        yield askAbout(row, {
            code: "text-may-identify",
            severity: "look-at",
            column,
            found: null,
            facts: { kind, character: from },
        });
    }
}
/** Pseudonyms of persons that are no pseudonyms; each person once. */
export const pseudonymSpeaks = function* ({ tables }) {
    const seen = new Set();
    for (const row of tables.injuries) {
        const { person_id } = row.values;
        if (seen.has(person_id))
            continue;
        seen.add(person_id);
        const looks = scanPseudonym(person_id);
        if (looks === null)
            continue;
        yield askAbout(row, {
            code: "pseudonym-may-identify",
            severity: "look-at",
            column: "person_id",
            found: null,
            facts: { kind: looks },
        });
    }
};
