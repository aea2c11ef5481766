import { answersTable } from "../../schema/answers.js";
import { StopError } from "../../schema/stop-error.js";
import { typeRows } from "../../schema/type-rows.js";
import { readTable } from "../read-table.js";
export const noAnswers = { file: "", read: 0, given: [], blank: [], unreadable: [], queries: [] };
/** The word by which an answer empties a cell: a blank new value could have been forgotten. */
const emptied = /^blank$/i;
/**
 * Reads the file of answers: the list that `check --queries` writes, with its last columns filled in.
 *
 * @throws StopError when the file is no such list
 */
export function readAnswers(source, { dateOrder }) {
    const table = answersTable;
    const read = readTable({ ...source }, answersTable);
    const stops = read.queries.filter(isStop);
    if (stops.length > 0)
        throw new StopError(stops);
    const sorted = typeRows(read.rows, table, { dateOrder, keep: "every" });
    const notAWord = new Set(sorted.queries.filter(({ column }) => column === "answer").map(({ row }) => row));
    const given = [];
    const blank = [];
    const unreadable = [];
    const queries = [...read.queries, ...sorted.queries];
    for (const { row } of [...read.setAside, ...sorted.setAside])
        unreadable.push({ row, values: null });
    for (const { row, values } of sorted.typed) {
        if (notAWord.has(row)) {
            unreadable.push({ row, values });
            continue;
        }
        if (isIncomplete(values)) {
            unreadable.push({ row, values });
            queries.push(askAboutAnswer({ file: source.file, row, values }, "answer-incomplete"));
            continue;
        }
        const { answer } = values;
        if (answer === null)
            blank.push(values);
        else
            given.push({ row, values, answer, newValue: newValueOf(values) });
    }
    return { file: source.file, read: read.read, given, blank, unreadable, queries };
}
/** A header without rows answers nothing yet, which is no reason to stop. */
const isStop = ({ code, severity }) => severity === "stop" && code !== "file-header-only";
/** A change without a new value, or a new value without a change. */
const isIncomplete = ({ answer, new_value }) => (answer === "change") !== (new_value !== null);
const newValueOf = ({ answer, new_value }) => {
    if (answer !== "change" || new_value === null)
        return null;
    return emptied.test(new_value) ? "" : new_value;
};
/** What is to be said about one line of the answers. */
export const askAboutAnswer = ({ file, row, values }, code) => ({
    code,
    severity: "look-at",
    file,
    row,
    column: code === "answer-incomplete" ? "new_value" : "id",
    found: code === "answer-incomplete" ? (values.new_value ?? "") : values.id,
    facts: {},
    injury: values.injury,
});
