import { ArgumentError } from "../../statistics/index.js";
import { addRiskSetTables } from "../../statistics/pooling/tables/index.js";
import { endsWhenTold, type RiskSetCell, type RiskSets } from "./risk-sets.js";
import { statisticsOf } from "./statistics-of-cell.js";

/** What is wrong with a table, and where in it. */
export interface TableProblem {
  /** As `cells.0.day.3`. */
  readonly at: string;
  readonly what: string;
}

/**
 * The first thing in each part of a table that no table of this toolkit has: days that are no ends of its bins, ends that it does not tell,
 * counts that do not add up.
 *
 * @param groups of the study
 */
export function tableProblems(table: RiskSets, groups: readonly string[]): readonly TableProblem[] {
  const { cells, bin_ends } = table;
  const fall = bin_ends.findIndex((end, i) => end <= (bin_ends[i - 1] ?? -1));
  const names = cells.map(({ group, stratum }) => JSON.stringify([group, stratum]));
  const twice = names.findIndex((name, i) => names.indexOf(name) !== i);
  const days = new Set([-1, ...bin_ends]);
  return [
    ...(fall < 0 ? [] : [{ at: `bin_ends.${fall}`, what: "does not come after the end before it." }]),
    ...(twice < 0
      ? []
      : [{ at: `cells.${twice}`, what: "is of a group and stratum that are there already." }]),
    ...cells.flatMap((cell, i) => {
      const found = inCell(cell, { table, groups, days });
      return found === null ? [] : [{ at: `cells.${i}${found.at}`, what: found.what }];
    }),
  ];
}

interface Within {
  readonly table: RiskSets;
  readonly groups: readonly string[];
  readonly days: ReadonlySet<number>;
}

function inCell(cell: RiskSetCell, { table, groups, days }: Within): TableProblem | null {
  const group = groups.indexOf(cell.group);
  if (group < 0)
    return {
      at: ".group",
      what: `the group "${cell.group}" is none of this study (${groups.join(", ")}).`,
    };
  const wrong = cell.day.findIndex((day) => !days.has(day));
  if (wrong >= 0)
    return { at: `.day.${wrong}`, what: `day ${cell.day[wrong]} is not the end of a bin of this table.` };
  const ends: readonly string[] = endsWhenTold[table.ends_told];
  const untold = Object.keys(cell.ended).find((end) => !ends.includes(end));
  if (untold !== undefined)
    return { at: `.ended.${untold}`, what: "is an end that the table does not tell by itself." };
  const entered = cell.entered.reduce((sum, n) => sum + n, 0);
  if (entered !== cell.injuries)
    return {
      at: ".injuries",
      what: `${cell.injuries} injuries are named, but ${entered} are counted in "entered".`,
    };
  try {
    addRiskSetTables([statisticsOf(cell, { group, stratum: 0, groups: groups.length })]);
    return null;
  } catch (error) {
    if (!(error instanceof ArgumentError)) throw error;
    return { at: "", what: `the counts do not make a table: ${error.message}.` };
  }
}
