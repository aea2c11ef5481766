import { queryList } from "./query-list.js";
import { rowTyper } from "./row-typer.js";
/**
 * Cells to typed values: each cell is read by the kind of its field, then held against the table's schema.
 *
 * A blank cell is `null`. A cell that cannot be taken as it stands gives a query, never a guess: in a required field
 * it sets the row aside, and so it does where a blank would say something (a date of return that cannot be read is not
 * "not back yet"); in any other optional field the value is `null` and the row is used.
 *
 * @param options dateOrder: how dates are written that do not put the year first; "year-first" takes only YYYY-MM-DD;
 *   keep: whether more than 200 alike doubts are kept one by one
 */
export function typeRows(rows, table, { dateOrder = "year-first", keep = "some" } = {}) {
    const names = table.fields.map(({ name }) => name);
    const columns = names.map((name, place) => ({ name, place }));
    const queries = queryList(keep);
    const typeRow = rowTyper(table, { columns, dateOrder, ask: queries.add });
    const typed = [];
    const setAside = [];
    for (const { file, row, cells } of rows) {
        const entries = names.map((name) => cells[name] ?? "");
        const outcome = typeRow(entries, { file, row });
        if ("values" in outcome)
            typed.push(outcome);
        else
            setAside.push({ row, query: outcome });
    }
    return { typed, queries: queries.all(), setAside };
}
