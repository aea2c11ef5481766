/** Opens the account of a file with the rows that reading it has set aside. */
export const openLedger = (about, { read, setAside }) => ({
    ...about,
    read,
    setAside: new Map(setAside.map(({ row, query }) => [row, query])),
});
/**
 * The rows that a check lets through. Every query is kept; the first that sets a row aside goes into the ledger.
 */
export function sieve(rows, { check, ledger, queries, }) {
    return rows.filter((row) => {
        let isUsed = true;
        for (const query of check(row)) {
            queries.add(query);
            if (query.severity !== "set-aside")
                continue;
            isUsed = false;
            if (!ledger.setAside.has(row.row))
                ledger.setAside.set(row.row, query);
        }
        return isUsed;
    });
}
/** Closes the account: rows read less those set aside are used. */
export function closeLedger({ table, file, read, setAside }, used) {
    const rows = [...setAside].map(([row, query]) => ({ row, query }));
    return { table, file, read, used, setAside: rows.sort((one, other) => one.row - other.row) };
}
