import type { RowAccount } from "../../schema/accounting.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import { imagingRow } from "../../schema/imaging.js";
import type { QueryList } from "../../schema/query-list.js";
import { type DatedColumn, datedColumns } from "../../schema/rules/dated.js";
import type { RowRule } from "../../schema/rules/row-rule.js";
import { rowRules } from "../../schema/rules/row-rules.js";
import type { LinkedTableName, TableName } from "../../schema/table-names.js";
import { type Table, tables } from "../../schema/tables.js";
import { treatmentRow } from "../../schema/treatments.js";
import { visitRow } from "../../schema/visits.js";
import { injuryTwice } from "../rules/injury-twice.js";
import { injuriesByName, injuryMustBeUsed, notBeforeInjury } from "../rules/set-aside.js";
import { type CheckedRows, checkRows, type ReadingContext } from "../table/check-rows.js";
import { closeLedger, type RowCheck, rowsThatPass } from "../table/ledger.js";
import type { ReadFile, RowsOfFile } from "../text/rows-of-file.js";
import { treatmentsSetAside } from "./treatments-set-aside.js";

/** The rows that are used, and the account of each file. */
export interface ReadTables {
  readonly tables: CohortTables;
  readonly accounts: readonly RowAccount[];
}

interface Reading {
  readonly context: ReadingContext;
  readonly queries: QueryList;
}

/**
 * Linked tables: each on its own, then the rows that name an injury against the injuries. Of a treatment whose row is set
 * aside stays that it was given.
 */
export function readLinkedTables(files: ReadonlyMap<TableName, ReadFile>, reading: Reading): ReadTables {
  const take = <Row>(
    name: LinkedTableName,
    table: Table<Row>,
    rules: readonly RowRule<Row>[],
  ): CheckedRows<Row> => checkRows(files.get(name) ?? notGiven, { table, rules, ...reading });

  const { personIds = "per_site" } = reading.context;
  const injuries = take("injuries", tables.injuries, rowRules.injuries);
  const injuriesUsed = rowsThatPass(injuries.rows, {
    check: injuryTwice(injuries.rows, personIds),
    ledger: injuries.ledger,
    queries: reading.queries,
  });
  const usedInjuries = injuriesByName(injuriesUsed);
  const twice = injuries.rows
    .filter(({ values }) => !usedInjuries.has(values.injury_id))
    .map(({ file, row, values }) => ({ file, row, cells: { injury_id: values.injury_id } }));
  const namesUsedInjury = injuryMustBeUsed(usedInjuries, [...injuries.notUsed, ...twice]);
  const ofUsedInjury = <Row extends { readonly injury_id: string }>(
    { rows, ledger }: CheckedRows<Row>,
    dates: readonly DatedColumn<Row>[],
  ) => {
    const checks: RowCheck<Row>[] = [
      namesUsedInjury,
      ...dates.map(({ column }) => notBeforeInjury<Row>(usedInjuries, column)),
    ];
    return checks.reduce(
      (left, check) => rowsThatPass(left, { check, ledger, queries: reading.queries }),
      rows,
    );
  };

  const treatments = take("treatments", tables.treatments, rowRules.treatments);
  const imaging = take("imaging", tables.imaging, rowRules.imaging);
  const visits = take("visits", tables.visits, rowRules.visits);
  const sites = take("sites", tables.sites, rowRules.sites);
  const used: CohortTables = {
    injuries: injuriesUsed,
    treatments: ofUsedInjury(treatments, datedColumns(treatmentRow, "course")),
    imaging: ofUsedInjury(imaging, datedColumns(imagingRow, "course")),
    visits: ofUsedInjury(visits, datedColumns(visitRow, "course")),
    sites: sites.rows,
    personIds,
  };
  const ledgers = { injuries, treatments, imaging, visits, sites };
  const accounts = (Object.keys(ledgers) as LinkedTableName[])
    .filter((name) => files.has(name))
    .map((name) => closeLedger(ledgers[name].ledger, used[name].length));
  const file = files.get("treatments") ?? notGiven;
  const dateOrder = file.read.words === undefined ? reading.context.dateOrder : "year-first";
  const others = treatmentsSetAside(treatments, { read: file.read, dateOrder, injuries: usedInjuries });
  return { tables: { ...used, treatments: [...used.treatments, ...others] }, accounts };
}

const nothingRead: RowsOfFile = { read: 0, rows: [], setAside: [], queries: [] };
const notGiven: ReadFile = { file: "", read: nothingRead };
