import { ArgumentError } from "../../shared/arguments.js";
import { checkRiskSetTable, type RiskSetTable, type SortedTable } from "./risk-set-table.js";
import { tally } from "./tally.js";

/** The lines of tables with the same covariates, one after the other; those of fewer causes have none of the others. */
export function joined(tables: readonly RiskSetTable[]): RiskSetTable {
  const chained = (of: (table: RiskSetTable) => ArrayLike<number> | undefined): number[] =>
    tables.flatMap((table) => {
      const values = of(table);
      return values ? Array.from(values) : new Array<number>(table.times.length).fill(0);
    });
  const causes = tables.reduce((most, { events }) => Math.max(most, events.length), 0);
  const names = tables[0]?.covariates?.names ?? [];
  return {
    times: chained(({ times }) => times),
    entered: chained(({ entered }) => entered),
    censored: chained(({ censored }) => censored),
    events: Array.from({ length: causes }, (_, k) => chained(({ events }) => events[k])),
    groups: chained(({ groups }) => groups),
    strata: chained(({ strata }) => strata),
    covariates: { names, columns: names.map((_, j) => chained((table) => table.covariates?.columns[j])) },
  };
}

/**
 * The sum of tables: what was counted at each place in any of them. The same table comes out in whatever order and by whatever steps they are
 * added; it is that of all their rows together. Sites that are to stay apart carry different strata.
 *
 * @throws ArgumentError where the tables do not name the same covariates in the same order, and for what is no table
 */
export function addRiskSetTables(tables: readonly RiskSetTable[]): SortedTable {
  tables.forEach((table, i) => {
    checkRiskSetTable(table);
    const [own, first] = [table, tables[0]!].map(({ covariates }) => (covariates?.names ?? []).join(", "));
    if (own !== first)
      throw new ArgumentError({
        argument: "tables",
        index: i,
        expected: `with the covariates of the first (${first})`,
        found: `${own}`,
      });
  });
  return tally(joined(tables));
}
