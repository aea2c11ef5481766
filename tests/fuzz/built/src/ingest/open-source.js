import { queryList } from "../schema/query-list.js";
import { tables } from "../schema/tables.js";
import { gridText } from "./grid/grid-text.js";
import { readWorkbook } from "./grid/read-workbook.js";
import { looksLikeWorkbook } from "./grid/workbook/open-archive.js";
import { noRows, rowsOfText } from "./read-table.js";
/**
 * Opens a file whose columns are ours: a workbook (.xlsx, told by its first bytes) is read here, since that cannot be
 * done in one go; any other file is handed on as it is. The columns of a workbook are matched, and its rows accounted
 * for, just as those of a CSV file.
 *
 * @returns the rows of the workbook, under the name of the file and of the sheet if that was named
 */
export async function openSource(source, { sheet = null, keep = "some" } = {}) {
    return looksLikeWorkbook(source.bytes) ? readFromWorkbook(source, { sheet, keep }) : source;
}
async function readFromWorkbook({ table, file, bytes }, { sheet, keep }) {
    const named = sheet === null ? file : `${file} [${sheet}]`;
    const { grid, queries: doubts } = await readWorkbook({ file: named, bytes }, { sheet });
    if (grid === null)
        return { table, file: named, read: noRows(doubts) };
    const queries = queryList(keep);
    for (const doubt of doubts)
        queries.add(doubt);
    return {
        table,
        file: named,
        read: rowsOfText(gridText(grid), tables[table], { file: named, queries }),
    };
}
