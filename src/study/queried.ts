import type { OutcomeRecord } from "../cohort/record.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import type { DataQuery } from "../schema/data-query.js";
import { queryCount } from "../schema/query-list.js";

/** The open queries about rows that are used, and the analysed injuries that they ask about. */
export interface Queried {
  readonly queries: number;
  /** Queries that are counted and not kept one by one, so that it is not known which injuries they ask about. */
  readonly notKept: number;
  /** The injuries asked about, all of them and for each kind of query. */
  readonly injuries: ReadonlySet<string>;
  readonly byCode: ReadonlyMap<DataQuery["code"], ReadonlySet<string>>;
}

/** Which of the analysed injuries the site is still asked about. */
export function queriedAmong(read: ReadCohort, records: readonly OutcomeRecord[]): Queried {
  const open = read.queries.filter(({ severity, row }) => severity === "look-at" && row !== null);
  const files = new Set(
    read.accounts
      .filter(({ table }) => table === "injuries" || table === "single_sheet")
      .map(({ file }) => file),
  );
  const byName = new Set(records.map(({ injury }) => injury));
  const byRow = new Map(records.map(({ row, injury }) => [row, injury]));
  const injuryOf = ({ injury, file, row }: DataQuery): string | undefined =>
    injury !== null && byName.has(injury) ? injury : files.has(file) ? byRow.get(row!) : undefined;
  const byCode = new Map<DataQuery["code"], Set<string>>();
  let notKept = 0;
  for (const query of open) {
    notKept += queryCount(query) - 1;
    const injury = injuryOf(query);
    if (injury === undefined) continue;
    const own = byCode.get(query.code);
    if (own === undefined) byCode.set(query.code, new Set([injury]));
    else own.add(injury);
  }
  return {
    queries: open.length + notKept,
    notKept,
    injuries: new Set([...byCode.values()].flatMap((own) => [...own])),
    byCode,
  };
}
