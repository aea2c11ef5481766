import { groupQueries, groupText } from "./group-queries.js";
/** Files that cannot be read at all: every reason at once, in words. */
export class StopError extends Error {
    name = "StopError";
    queries;
    constructor(queries) {
        super(groupQueries(queries).map(groupText).join("\n"));
        this.queries = queries;
    }
}
