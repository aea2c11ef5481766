/** Holds the identity of row accounting, or stops the run: a toolkit that loses a row may not report. */
export function assertAccountBalances({ table, file, read, used, setAside }) {
    if (read !== used + setAside.length) {
        throw new Error(`${file}: row accounting of ${table} does not balance: ${read} rows read, ${used} used, ${setAside.length} set aside. ` +
            "This is a fault of the toolkit, not of the file; no report is written.");
    }
}
/** Holds the identity of the answers, or stops the run: no answer is dropped in silence. */
export function assertAnswersBalance({ file, read, blank, used, repeated, notUsed }) {
    const told = [blank, repeated, ...Object.values(used), ...Object.values(notUsed)];
    if (read !== told.reduce((sum, n) => sum + n, 0)) {
        throw new Error(`${file}: the account of the answers does not balance: ${read} lines read, ${told.join(" + ")} told. ` +
            "This is a fault of the toolkit, not of the file; no report is written.");
    }
}
