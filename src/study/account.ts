import type { DerivedCohort } from "../cohort/record.js";
import { assertAccountBalances, type RowAccount } from "../schema/accounting.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import type { DataQuery } from "../schema/data-query.js";
import { queryCount } from "../schema/query-list.js";
import { tables } from "../schema/tables.js";
import { sayQuery } from "../schema/words.js";
import { personsAmong } from "./columns.js";
import type { ExactResults } from "./exact-results.js";
import type { Grouping } from "./groups.js";
import { idsAtSeveralSites } from "./ids-at-several-sites.js";

/** Rows named in a report for each kind of query: enough to find them, not a list of the cohort. */
const rowsNamed = 20;

/** Where every row went: read, used, set aside, analysed, excluded, compared, left out. */
export function accountOf(
  read: ReadCohort,
  derived: DerivedCohort,
  comparison: Grouping,
): ExactResults["accounting"] {
  const compared = comparison.groups.reduce((sum, { records }) => sum + records.length, 0);
  const leftOut = comparison.leftOut.reduce((sum, { n }) => sum + n, 0);
  const several = idsAtSeveralSites(derived.records);
  assertAdds("comparison", derived.records.length, compared + leftOut);
  return {
    tables: read.accounts.map(tableAccountOf),
    analysis: {
      injuries: derived.records.length + derived.excluded.length,
      analysed: derived.records.length,
      persons: personsAmong(derived.records),
      ...(several && { ids_at_several_sites: { ...several } }),
      excluded: countsBy(derived.excluded, ({ excluded }) => excluded),
    },
    comparison: { analysed: derived.records.length, compared, left_out: [...comparison.leftOut] },
  };
}

function assertAdds(step: string, whole: number, parts: number): void {
  if (whole !== parts) {
    throw new Error(
      `row accounting of the ${step} does not balance: ${whole} in, ${parts} out. This is a fault of the toolkit.`,
    );
  }
}

function tableAccountOf(account: RowAccount): ExactResults["accounting"]["tables"][number] {
  assertAccountBalances(account);
  const byCode = new Map<DataQuery["code"], number[]>();
  for (const { row, query } of account.setAside) {
    const rows = byCode.get(query.code);
    // the second injury of row 5 has the number 5.2
    if (rows === undefined) byCode.set(query.code, [Math.floor(row)]);
    else rows.push(Math.floor(row));
  }
  return {
    table: account.table,
    file: account.file,
    ...(account.site === undefined ? {} : { site: account.site }),
    read: account.read,
    used: account.used,
    set_aside: account.setAside.length,
    reasons: [...byCode].map(([code, rows]) => ({ code, n: rows.length, rows: rows.slice(0, rowsNamed) })),
    ...shapeOf(account),
  };
}

/** How the rows of the file became those that are counted, and the columns that are not used, without their names. */
function shapeOf({ folded, unfoldedFrom, columnsNotUsed }: RowAccount) {
  const filled = columnsNotUsed?.filter(({ filled: n }) => n > 0) ?? [];
  return {
    ...(folded && {
      folded: {
        injuries: folded.injuries,
        further_visits: folded.further,
        visits_not_used: folded.visitsNotUsed,
        cells_from_other_rows: folded.carried.reduce((sum, { cells }) => sum + cells, 0),
      },
    }),
    ...(unfoldedFrom !== undefined && { rows_of_file: unfoldedFrom }),
    ...(columnsNotUsed && {
      not_used: { columns: filled.length, filled_cells: filled.reduce((sum, { filled: n }) => sum + n, 0) },
    }),
  };
}

/** Doubts about columns that may be a site's own, under whatever name. */
const aboutColumns: ReadonlySet<DataQuery["code"]> = new Set([
  "column-unknown",
  "column-twice",
  "wrong-delimiter",
  "mapping-column-new",
] as const);
const ourColumns = new Set(
  Object.values(tables).flatMap(({ fields }) => fields.map(({ name }: { readonly name: string }) => name)),
);

/** The column of a query; columns that are not ours and are not read are counted and not named. */
const columnTold = ({ code, column }: DataQuery): string | null =>
  column !== null && aboutColumns.has(code) && !ourColumns.has(column) ? null : column;

/** The query without what was found, and without a likely meaning: both repeat what stands in the file. */
const withoutFindings = ({ facts: { near: _, ...facts }, ...query }: DataQuery): DataQuery => ({
  ...query,
  found: null,
  facts,
});

/** Queries of one kind together, the gravest first; the values found stay in the clinic. */
export function queryGroupsOf(queries: readonly DataQuery[]): ExactResults["queries"] {
  const groups = new Map<string, DataQuery[]>();
  for (const query of queries) {
    const key = JSON.stringify([query.code, query.severity, query.file, columnTold(query)]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [query]);
    else group.push(query);
  }
  const bySeverity = ["stop", "set-aside", "look-at"];
  return [...groups.values()]
    .map((group) => {
      const { code, severity, file } = group[0]!;
      const { expected, correction } = sayQuery(withoutFindings(group[0]!));
      const rows = group.flatMap(({ row }) => (row === null ? [] : [Math.floor(row)])).slice(0, rowsNamed);
      return {
        code,
        severity,
        file,
        column: columnTold(group[0]!),
        n: group.reduce((sum, query) => sum + queryCount(query), 0),
        rows,
        expected,
        correction,
      };
    })
    .sort((a, b) => bySeverity.indexOf(a.severity) - bySeverity.indexOf(b.severity) || b.n - a.n);
}

/** Counts of each word, most frequent first, then by the word. */
export function countsBy<Item, Code extends string>(
  items: readonly Item[],
  codeOf: (item: Item) => Code,
): { code: Code; n: number }[] {
  const counts = new Map<Code, number>();
  for (const item of items) counts.set(codeOf(item), (counts.get(codeOf(item)) ?? 0) + 1);
  return [...counts]
    .map(([code, n]) => ({ code, n }))
    .sort((a, b) => b.n - a.n || (a.code < b.code ? -1 : 1));
}
