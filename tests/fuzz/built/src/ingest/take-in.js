import { checkRow } from "../schema/rules/row-rule.js";
import { typeRows } from "../schema/type-rows.js";
import { identifierTwice } from "./rules/set-aside.js";
import { openLedger, sieve } from "./sieve.js";
/** Cells to typed rows, each row against itself, and names that stand for more than one row. */
export function takeIn({ file, read, leftOut = [] }, { table, rules, context, queries, }) {
    const ledger = openLedger({ table: table.name, file }, read);
    for (const query of read.queries)
        queries.add(query);
    const dateOrder = read.words === undefined ? context.dateOrder : "year-first";
    const sorted = typeRows(read.rows, table, { ...context, dateOrder });
    for (const query of sorted.queries)
        queries.add(query);
    for (const { row, query } of sorted.setAside)
        ledger.setAside.set(row, query);
    const namesAnother = identifierTwice(read.rows, table.key);
    const check = (row) => [...namesAnother(row), ...checkRow(row, { rules, context })];
    const rows = sieve(sorted.typed, { check, ledger, queries });
    return { ledger, cells: [...read.rows, ...leftOut], rows };
}
