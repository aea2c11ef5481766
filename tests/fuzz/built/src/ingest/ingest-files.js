import { assertAccountBalances } from "../schema/accounting.js";
import { queryList } from "../schema/query-list.js";
import { readLinkedTables } from "./read-linked-tables.js";
import { readSingleSheet } from "./read-single-sheet.js";
import { linkRows } from "./rules/link-rule.js";
import { linkRules } from "./rules/link-rules.js";
/** One reading: cells to typed rows, each row against itself, then the tables against each other. */
export function ingestFiles(files, { context, link, keep, }) {
    const queries = queryList(keep);
    const reading = { context: { ...context, keep }, queries };
    const sheet = files.get("single_sheet");
    const { accounts, tables } = sheet === undefined ? readLinkedTables(files, reading) : readSingleSheet(sheet, reading);
    const linked = linkRows(tables);
    for (const rule of linkRules) {
        for (const query of rule(linked, link))
            queries.add(query);
    }
    for (const account of accounts)
        assertAccountBalances(account);
    return { tables, accounts, queries: queries.all() };
}
