/** A file of settings that cannot be followed: every problem at once, in the order of the file. */
export class SettingsError extends Error {
    file;
    problems;
    name = "SettingsError";
    constructor(file, problems) {
        super(inOrder(problems)
            .map((problem) => problemText(file, problem))
            .join("\n"));
        this.file = file;
        this.problems = problems;
    }
}
const inOrder = (problems) => [...problems].sort((one, other) => one.line - other.line || one.column - other.column);
/** The sentence of a problem: where, what was expected, how to mend it. */
function problemText(file, { line, column, at, expected, mend }) {
    const place = at === "" ? "" : ` "${at}":`;
    return `${file}, line ${line}, column ${column}:${place} ${expected}\n  ${mend}`;
}
