import { competingEnds } from "../../schema/terms.js";
import { ArgumentError } from "../../statistics/index.js";
import {
  addRiskSetTables,
  coarserTable,
  type RiskSetTable,
  type SortedTable,
} from "../../statistics/pooling/tables/index.js";
import { PoolingFileError } from "../pooling-file-error.js";
import type { EndsTold, RiskSetCell, RiskSets, TableEnd } from "./risk-sets.js";

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
  readonly bin_ends: readonly number[];
  /** The least that any site tells of the other ends. */
  readonly ends_told: EndsTold;
}

const columnOf: Readonly<Record<TableEnd, number>> = {
  milestone: 0,
  ...(Object.fromEntries(competingEnds.map((end, i) => [end, 1 + i])) as Record<
    (typeof competingEnds)[number],
    number
  >),
  another_end: 1 + competingEnds.length,
};
const columns = 2 + competingEnds.length;

/** The ends of bins at which every site has one, or has nobody left. */
function sharedEnds(tables: readonly TableOfSite[]): number[] {
  const ends = tables.map(({ risk_sets: { bin_ends } }) => ({
    of: new Set(bin_ends),
    last: bin_ends[bin_ends.length - 1] ?? 0,
  }));
  const all = [...new Set(tables.flatMap(({ risk_sets: { bin_ends } }) => bin_ends))];
  return all.filter((end) => ends.every(({ of, last }) => of.has(end) || end >= last)).sort((a, b) => a - b);
}

function statisticsOf(
  cell: RiskSetCell,
  codes: { readonly group: number; readonly stratum: number; readonly groups: number },
): RiskSetTable {
  const n = cell.day.length;
  const none = new Array<number>(n).fill(0);
  const events = Array.from({ length: columns }, () => none);
  for (const [end, counts] of Object.entries(cell.ended) as [TableEnd, readonly number[]][])
    events[columnOf[end]] = [...counts];
  // the first group is the one that the others are compared with
  const others = Array.from({ length: codes.groups - 1 }, (_, i) => i + 1);
  return {
    times: cell.day,
    entered: cell.entered,
    censored: cell.censored,
    events,
    groups: new Array<number>(n).fill(codes.group),
    strata: new Array<number>(n).fill(codes.stratum),
    covariates: {
      names: others.map((code) => `group ${code}`),
      columns: others.map((code) => new Array<number>(n).fill(Number(code === codes.group))),
    },
  };
}

/** A table that is none is a fault of the file: where it lies. */
function within<Made>(place: { readonly file: string; readonly at: string }, make: () => Made): Made {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof ArgumentError)) throw error;
    throw new PoolingFileError({
      file: place.file,
      place: place.at,
      problem: `the counts do not make a table: ${error.message}.`,
      correction: "Ask the site for its file again; it was altered after it was written.",
    });
  }
}

/** @throws PoolingFileError where the days of a cell are not the ends of the bins that the table names */
function checkDays({ file, risk_sets }: TableOfSite, cell: RiskSetCell, at: string): void {
  const ends = new Set([-1, ...risk_sets.bin_ends]);
  const wrong = cell.day.findIndex((day) => !ends.has(day));
  if (wrong >= 0)
    throw new PoolingFileError({
      file,
      place: `${at}.day[${wrong}]`,
      problem: `day ${cell.day[wrong]} is not the end of a bin of this table.`,
      correction: "Ask the site for its file again; it was altered after it was written.",
    });
  const counted = cell.entered.reduce((sum, n) => sum + n, 0);
  if (counted !== cell.injuries)
    throw new PoolingFileError({
      file,
      place: `${at}.injuries`,
      problem: `${cell.injuries} injuries are named, but ${counted} are counted in "entered".`,
      correction: "Ask the site for its file again; it was altered after it was written.",
    });
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
  const together: RiskSetTable[] = [];
  let stratum = 0;
  for (const table of tables) {
    const codes = new Map<string | null, number>();
    table.risk_sets.cells.forEach((cell, i) => {
      const at = `risk_sets.cells[${i}]`;
      const group = groups.indexOf(cell.group);
      if (group < 0) throw unknownGroup(table, { at, group: cell.group, groups });
      checkDays(table, cell, at);
      const code = codes.get(cell.stratum) ?? stratum++;
      codes.set(cell.stratum, code);
      const own = statisticsOf(cell, { group, stratum: code, groups: groups.length });
      const made = within({ file: table.file, at }, () => addRiskSetTables([own]));
      apart.push(made);
      together.push(coarserTable({ ...made, strata: made.strata.map(() => 0) }, { ends: shared }));
    });
  }
  const told = tables.map(({ risk_sets }) => risk_sets.ends_told);
  return {
    groups,
    apart: addRiskSetTables(apart),
    together: addRiskSetTables(together),
    bin_ends: shared,
    ends_told: told.includes("as_ends_of_follow_up")
      ? "as_ends_of_follow_up"
      : told.includes("as_one")
        ? "as_one"
        : "each",
  };
}

const unknownGroup = (
  { file }: TableOfSite,
  { at, group, groups }: { readonly at: string; readonly group: string; readonly groups: readonly string[] },
) =>
  new PoolingFileError({
    file,
    place: `${at}.group`,
    problem: `the group "${group}" is none of this study (${groups.join(", ")}).`,
    correction: "Give all sites the same agreed study file, and ask this one for its file again.",
  });
