import { timesOf } from "./query-list.js";
import { queryText, sayQuery } from "./words.js";
const order = { stop: 0, "set-aside": 1, "look-at": 2 };
/** Alike queries together: what stops the run first, then what sets rows aside; otherwise in the order met. */
export function groupQueries(queries) {
    const groups = new Map();
    for (const query of queries) {
        const { expected, mend } = sayQuery(query);
        const key = JSON.stringify([query.severity, query.file, query.code, query.column, expected, mend]);
        const group = groups.get(key) ?? { first: query, times: 0, rows: [] };
        group.times += timesOf(query);
        if (query.row !== null)
            group.rows.push(query.row);
        groups.set(key, group);
    }
    return [...groups.values()].sort((one, other) => order[one.first.severity] - order[other.first.severity]);
}
/** A group in words: its first query, and how many more there are like it. */
export function groupText({ first, times }) {
    const more = times - 1;
    if (more === 0)
        return queryText(first);
    const things = first.row === null ? "" : more === 1 ? " row" : " rows";
    return `${queryText(first)}\n  And ${more} more${things} like it.`;
}
