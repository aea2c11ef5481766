import { rowRules } from "../schema/rules/row-rules.js";
import { tables } from "../schema/tables.js";
import { injuriesByName, injuryMustBeUsed, notBeforeInjury } from "./rules/set-aside.js";
import { closeLedger, sieve } from "./sieve.js";
import { takeIn } from "./take-in.js";
/** Linked tables: each on its own, then the rows that name an injury against the injuries. */
export function readLinkedTables(files, reading) {
    const take = (name, table, rules) => takeIn(files.get(name) ?? notGiven, { table, rules, ...reading });
    const injuries = take("injuries", tables.injuries, rowRules.injuries);
    const usedInjuries = injuriesByName(injuries.rows);
    const namesUsedInjury = injuryMustBeUsed(usedInjuries, injuries.cells);
    const ofUsedInjury = ({ rows, ledger }, dates) => {
        const checks = [
            namesUsedInjury,
            ...dates.map((column) => notBeforeInjury(usedInjuries, column)),
        ];
        return checks.reduce((left, check) => sieve(left, { check, ledger, queries: reading.queries }), rows);
    };
    const treatments = take("treatments", tables.treatments, rowRules.treatments);
    const imaging = take("imaging", tables.imaging, rowRules.imaging);
    const visits = take("visits", tables.visits, rowRules.visits);
    const sites = take("sites", tables.sites, rowRules.sites);
    const used = {
        injuries: injuries.rows,
        treatments: ofUsedInjury(treatments, ["start_date"]),
        imaging: ofUsedInjury(imaging, ["date"]),
        visits: ofUsedInjury(visits, ["date"]),
        sites: sites.rows,
    };
    const ledgers = { injuries, treatments, imaging, visits, sites };
    const accounts = Object.keys(ledgers)
        .filter((name) => files.has(name))
        .map((name) => closeLedger(ledgers[name].ledger, used[name].length));
    return { tables: used, accounts };
}
const nothingRead = { read: 0, rows: [], setAside: [], queries: [] };
const notGiven = { file: "", read: nothingRead };
