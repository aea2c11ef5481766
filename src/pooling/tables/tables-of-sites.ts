import {
  addRiskSetTables,
  coarserTable,
  type RiskSetTable,
  type SortedTable,
} from "../../statistics/pooling/tables/index.js";
import { PoolingFileError } from "../pooling-file-error.js";
import { tableProblems } from "./check-table.js";
import type { EndsTold, RiskSets } from "./risk-sets.js";
import { statisticsOf } from "./statistics-of-cell.js";

/** A site's table under the site's name, and the file that it came in. */
export interface TableOfSite {
  readonly site: string;
  readonly file: string;
  readonly risk_sets: RiskSets;
}

/** Which group each code stands for, and which stratum at which site. */
export interface JoinedTables {
  /** Groups in the order asked for; the code of a group is its place. */
  readonly groups: readonly string[];
  /** Each stratum of each site apart: for tests and regression within them, whatever the bins of the sites are. */
  readonly apart: SortedTable;
  /** All sites as one, in the bins that all of them share: for curves. */
  readonly together: SortedTable;
  /** Each site by itself, its strata as one, in its own bins; in the order of the sites. */
  readonly bySite: readonly SortedTable[];
  readonly bin_ends: readonly number[];
  /** The least that any site tells of the other ends. */
  readonly ends_told: EndsTold;
}

/** The ends of bins at which every site has one, or has nobody left. */
function sharedEnds(tables: readonly TableOfSite[]): number[] {
  const ends = tables.map(({ risk_sets: { bin_ends } }) => ({
    of: new Set(bin_ends),
    last: bin_ends[bin_ends.length - 1] ?? 0,
  }));
  const all = [...new Set(tables.flatMap(({ risk_sets: { bin_ends } }) => bin_ends))];
  return all.filter((end) => ends.every(({ of, last }) => of.has(end) || end >= last)).sort((a, b) => a - b);
}

/**
 * The tables of several sites as tables of one study.
 *
 * @param groups of the study, the reference first
 * @throws PoolingFileError naming the file and the place of what makes no table
 */
export function joinTables(tables: readonly TableOfSite[], groups: readonly string[]): JoinedTables {
  const shared = sharedEnds(tables);
  const apart: RiskSetTable[] = [];
  const bySite: SortedTable[] = [];
  let stratum = 0;
  for (const table of tables) {
    refuseAltered(table, groups);
    const codes = new Map<string | null, number>();
    const own: RiskSetTable[] = [];
    for (const cell of table.risk_sets.cells) {
      const code = codes.get(cell.stratum) ?? stratum++;
      codes.set(cell.stratum, code);
      const group = groups.indexOf(cell.group);
      const made = addRiskSetTables([statisticsOf(cell, { group, stratum: code, groups: groups.length })]);
      apart.push(made);
      own.push({ ...made, strata: made.strata.map(() => 0) });
    }
    bySite.push(addRiskSetTables(own));
  }
  const told = tables.map(({ risk_sets }) => risk_sets.ends_told);
  return {
    groups,
    apart: addRiskSetTables(apart),
    together: addRiskSetTables(bySite.map((own) => coarserTable(own, { ends: shared }))),
    bySite,
    bin_ends: shared,
    ends_told: told.includes("as_ends_of_follow_up")
      ? "as_ends_of_follow_up"
      : told.includes("as_one")
        ? "as_one"
        : "each",
  };
}

/** @throws PoolingFileError naming the file and the first place at fault */
function refuseAltered({ file, risk_sets }: TableOfSite, groups: readonly string[]): void {
  const [found] = tableProblems(risk_sets, groups);
  if (found !== undefined)
    throw new PoolingFileError({
      file,
      place: `risk_sets.${found.at}`,
      problem: found.what,
      correction:
        "Ask the site for its file again; it was altered after it was written, or is of another study.",
    });
}
