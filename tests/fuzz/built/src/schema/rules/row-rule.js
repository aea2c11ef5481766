import { askAbout } from "../ask.js";
/** Holds one row against the rules; every rule that is broken gives a query. */
export function checkRow(row, { rules, context }) {
    const queries = [];
    for (const { code, severity, check } of rules) {
        const doubt = check(row.values, context);
        if (doubt !== null)
            queries.push(askAbout(row, { ...doubt, code, severity }));
    }
    return queries;
}
