import { checkRow } from "../schema/rules/row-rule.js";
import { rowRules } from "../schema/rules/row-rules.js";
import { tables } from "../schema/tables.js";
import { byKey } from "./rules/link-rule.js";
import { injuriesByName, notBeforeInjury } from "./rules/set-aside.js";
import { closeLedger, sieve } from "./sieve.js";
import { takeIn } from "./take-in.js";
import { unfoldSingleSheet } from "./unfold-single-sheet.js";
/** The single sheet: unfolded into linked tables; a row is used with all its parts, or set aside with all of them. */
export function readSingleSheet(file, { context, queries }) {
    const sheet = takeIn(file, { table: tables.single_sheet, rules: [], context, queries });
    const unfolded = unfoldSingleSheet(sheet.rows);
    const doubts = byKey(doubtsOf(unfolded, context), ({ row }) => String(row));
    const check = ({ row }) => doubts.get(String(row)) ?? [];
    const used = new Set(sieve(sheet.rows, { check, ledger: sheet.ledger, queries }).map(({ row }) => row));
    const ofUsedRows = (rows) => rows.filter(({ row }) => used.has(row));
    return {
        tables: {
            injuries: ofUsedRows(unfolded.injuries),
            treatments: ofUsedRows(unfolded.treatments),
            imaging: ofUsedRows(unfolded.imaging),
            visits: [],
            sites: [],
        },
        accounts: [closeLedger(sheet.ledger, used.size)],
    };
}
/** Every doubt about the parts of each row: the parts against themselves, and their dates against the injury. */
function doubtsOf({ injuries, treatments, imaging, queries }, context) {
    const byName = injuriesByName(injuries);
    const startsAfterInjury = notBeforeInjury(byName, "start_date");
    const scanAfterInjury = notBeforeInjury(byName, "date");
    return [
        ...queries,
        ...injuries.flatMap((row) => checkRow(row, { rules: rowRules.injuries, context })),
        ...treatments.flatMap((row) => checkRow(row, { rules: rowRules.treatments, context })),
        ...treatments.flatMap((row) => [...startsAfterInjury(row)]),
        ...imaging.flatMap((row) => checkRow(row, { rules: rowRules.imaging, context })),
        ...imaging.flatMap((row) => [...scanAfterInjury(row)]),
    ];
}
