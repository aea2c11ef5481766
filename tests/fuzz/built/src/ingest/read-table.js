import { queryList } from "../schema/query-list.js";
import { askerAboutFile } from "./ask-about-file.js";
import { tableReader } from "./table-reader.js";
import { textOfFile } from "./text-of-file.js";
/** Characters taken at a time, so that what a parser holds besides the rows stays small. */
const block = 1_000_000;
/**
 * Reads a CSV file into rows of cells by column name; what the cells mean is decided later.
 * Nothing is thrown for what the file holds: a file that cannot be read gives queries of severity `stop`.
 */
export function readTable({ file, bytes }, table, { keep = "some" } = {}) {
    const queries = queryList(keep);
    const text = textOfFile(bytes, askerAboutFile(file, queries))?.text ?? null;
    return text === null ? noRows(queries.all()) : rowsOfText(text, table, { file, queries });
}
/** Nothing was read; the queries say why. */
export const noRows = (queries) => ({
    read: 0,
    rows: [],
    setAside: [],
    queries,
});
/** The rows of a table from its delimited text; doubts go to those that are there already. */
export function rowsOfText(text, table, { file, queries }) {
    const ask = askerAboutFile(file, queries);
    const rows = [];
    const setAside = [];
    let columns = [];
    const reader = tableReader(table, {
        ask,
        rows: {
            open: (found) => {
                columns = found;
            },
            take: (entries, row) => rows.push({ file, row, cells: cellsOf(entries, columns) }),
            setAside: (query, row) => setAside.push({ row, query }),
        },
    });
    for (let from = 0; from < text.length; from += block)
        reader.read(text.slice(from, from + block));
    const read = reader.finish();
    const found = queries.all();
    const isStopped = found.some(({ severity }) => severity === "stop");
    return isStopped ? noRows(found) : { read, rows, setAside, queries: found };
}
/** Only columns of the table get in, so that no name in a file can reach anything but a cell. */
function cellsOf(entries, columns) {
    const cells = {};
    for (const { name, place } of columns)
        cells[name] = entries[place] ?? "";
    return cells;
}
