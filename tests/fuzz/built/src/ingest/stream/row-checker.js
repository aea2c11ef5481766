import { foundText } from "../../schema/ask.js";
import { tidy } from "../../schema/cells/reading.js";
import { rowTyper } from "../../schema/row-typer.js";
import { checkRow } from "../../schema/rules/row-rule.js";
import { keyKeeper } from "./key-keeper.js";
/** A checker for the rows of one file. Of the rows that share a key none is used, as none can be trusted. */
export function rowChecker(file, { table, rules, context, onRow, ask }) {
    const reasons = new Map();
    const withdrawn = new Set();
    /** The first row of each key, negative where it is not used: a number takes the least memory. */
    const keys = keyKeeper();
    let typeRow = null;
    let keyPlaces = [];
    let used = 0;
    let setAside = 0;
    const putAside = ({ code }) => {
        setAside += 1;
        reasons.set(code, (reasons.get(code) ?? 0) + 1);
    };
    /** The query about a key that was met before, whose first row is then withdrawn; null for a new key. */
    const metBefore = (key, row) => {
        const first = keys.find(key);
        if (first === undefined)
            return null;
        const about = { file, column: table.key.at(-1) ?? "", found: key, rows: `${Math.abs(first)}, ${row}` };
        if (first > 0) {
            keys.keep(key, -first);
            used -= 1;
            withdrawn.add(first);
            const query = twice({ ...about, row: first });
            ask(query);
            putAside(query);
        }
        const query = twice({ ...about, row });
        ask(query);
        return query;
    };
    return {
        open: (columns) => {
            typeRow = rowTyper(table, { columns, dateOrder: context.dateOrder, ask });
            keyPlaces = table.key.map((name) => columns.find((column) => column.name === name)?.place ?? -1);
        },
        take: (entries, row) => {
            const typed = typeRow(entries, { file, row });
            const key = keyPlaces.length === 0 ? null : keyOf(entries, keyPlaces);
            const double = key === null ? null : metBefore(key, row);
            let reason = "values" in typed ? double : typed;
            for (const query of "values" in typed ? checkRow(typed, { rules, context }) : []) {
                ask(query);
                if (query.severity === "set-aside")
                    reason ??= query;
            }
            if (key !== null && double === null)
                keys.keep(key, reason === null ? row : -row);
            if (reason !== null)
                return putAside(reason);
            used += 1;
            onRow(typed);
        },
        setAside: putAside,
        soFar: () => ({ used, setAside, reasons, withdrawn }),
    };
}
const keyOf = (entries, places) => places.length === 1
    ? tidy(entries[places[0]] ?? "")
    : places.map((place) => tidy(entries[place] ?? "")).join("\n");
const twice = ({ file, row, column, found, rows, }) => ({
    code: "identifier-twice",
    severity: "set-aside",
    file,
    row,
    column,
    found: foundText(found.replaceAll("\n", ", ")),
    facts: { rows },
    injury: null,
});
