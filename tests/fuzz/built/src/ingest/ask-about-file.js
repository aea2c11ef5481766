import { foundText } from "../schema/ask.js";
/** Asks about one file, into a list. */
export const askerAboutFile = (file, queries) => ({ code, severity, row = null, column = null, found = null, facts = {} }) => {
    const query = {
        code,
        severity,
        file,
        row,
        column: column === null ? null : foundText(column),
        found: found === null ? null : foundText(found),
        facts,
        injury: null,
    };
    queries.add(query);
    return query;
};
