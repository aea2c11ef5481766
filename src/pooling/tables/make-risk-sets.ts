import { causeOf } from "../../cohort/columns.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import { competingEnds } from "../../schema/terms.js";
import { binnedRows, riskSetTable, type SortedTable } from "../../statistics/pooling/tables/index.js";
import { personsAmong } from "../../study/columns.js";
import type { Members, Settled } from "../../study/groups.js";
import { isInStratum, strataOf } from "../../study/strata.js";
import { asAsked, type BinnedCells, type Bins, coarseEnoughFor, foldingOf } from "./coarser-bins.js";
import type { TableCell } from "./counted-people.js";
import {
  endsWhenTold,
  type noTableReasons,
  type RiskSetCell,
  type RiskSets,
  type RiskSetsMade,
  type TableEnd,
} from "./risk-sets.js";
import { suppressCells } from "./suppress-cells.js";

/** How a table of risk sets is asked for. */
export interface TableAsked {
  /** Width of the bins in days; a week where nothing else is asked for. */
  readonly binDays: number;
  /** Fewest people behind a count that leaves. */
  readonly smallestCell: number;
  /** Whether bins may be put together where counts in them are small. */
  readonly coarser: boolean;
  /** What else leaves with the table, from which what is left out of it could be found; left out: nothing. */
  readonly beside?: Beside;
}

/** What is told of a site beside its table. */
export interface Beside {
  /** Groups with figures of their own: the person of each of their injuries, by the injury's id. */
  readonly groups: readonly ReadonlyMap<string, string>[];
  /** Whether a few people with an end would be found from the sum of all ends less those that are told. */
  readonly endsWouldReveal: boolean;
}

const nothing: Beside = { groups: [], endsWouldReveal: false };

const refused = (
  reason: (typeof noTableReasons)[number],
  { binDays, coarserEnds = null }: { readonly binDays: number; readonly coarserEnds?: number[] | null },
): RiskSetsMade => ({ leaves: false, reason, bin_days: binDays, coarser_bin_ends: coarserEnds });

/** Records by group and stratum, and those that lack what a stratum needs. */
function cellsOf(groups: readonly Members[], asked: Settled) {
  const records = groups.flatMap((group) => group.records);
  const fields = asked.comparison.strata;
  const strata = fields.length === 0 ? null : strataOf(records, fields);
  let at = 0;
  const lacking: OutcomeRecord[] = [];
  const cells = groups.flatMap(({ label, records: own }): TableCell[] => {
    const from = at;
    at += own.length;
    if (strata === null) return [{ group: label, stratum: null, records: own }];
    lacking.push(...own.filter((_, i) => !isInStratum(strata, from + i)));
    return strata.labels.map((stratum, code) => ({
      group: label,
      stratum,
      records: own.filter((_, i) => strata.codes[from + i] === code),
    }));
  });
  return { cells, lacking };
}

/**
 * The table of risk sets of a site: who was at risk, came to an end or left, by weeks (or wider bins), group and stratum; or why none leaves
 * it. No count of it is of fewer people than the smallest cell, but for nobody.
 *
 * @param groups the compared groups of a study, at risk from where the study has them at risk
 */
export function riskSetsOf(
  groups: readonly Members[],
  { asked, binDays, smallestCell, coarser, beside = nothing }: TableAsked & { readonly asked: Settled },
): RiskSetsMade {
  if (asked.path === "spans") return refused("between-visits", { binDays });
  const { cells, lacking } = cellsOf(groups, asked);
  if (cells.every(({ records }) => records.length === 0)) return refused("no-rows", { binDays });
  const { kept, small, wouldReveal } = suppressCells(cells, { smallest: smallestCell, told: beside.groups });
  if (kept.length === 0) return refused("small-cells", { binDays });
  const settings = { binDays, smallest: smallestCell, mayTellAsOne: !beside.endsWouldReveal };
  const narrow = asAsked(kept, settings);
  const wider = narrow === null ? coarseEnoughFor(kept, settings) : null;
  const leaving: BinnedCells | null =
    narrow === null ? (coarser ? wider : null) : { cells: kept, bins: narrow };
  if (leaving === null)
    return refused("small-bins", { binDays, coarserEnds: wider === null ? null : [...wider.bins.ends] });
  const left = [
    leftOut("small-cell", small.length, null),
    leftOut("would-reveal", wouldReveal.length, null),
    leftOut("small-bins", kept.length - leaving.cells.length, null),
    leftOut("missing-covariate", lacking.length === 0 ? 0 : 1, countOf(lacking, smallestCell)),
  ];
  return {
    leaves: true,
    table: tableOf({ ...leaving, left: left.flat() }, { asked, binDays, smallestCell }),
  };
}

type LeftOut = RiskSets["left_out"][number];

const leftOut = (reason: LeftOut["reason"], cells: number, injuries: number | null): LeftOut[] =>
  cells === 0 ? [] : [{ reason, cells, injuries }];

const countOf = (records: readonly OutcomeRecord[], smallest: number): number | null =>
  personsAmong(records) >= smallest ? records.length : null;

function tableOf(
  { cells, left, bins }: BinnedCells & { readonly left: LeftOut[] },
  {
    asked: { comparison },
    binDays,
    smallestCell,
  }: Pick<TableAsked, "binDays" | "smallestCell"> & { readonly asked: Settled },
): RiskSets {
  return {
    format: "pulley-outcomes risk sets 1",
    intervals_take: "every injury on its own",
    by: comparison.by,
    strata: [...comparison.strata],
    not_held_equal: [...comparison.numbers],
    bin_days: binDays,
    bin_ends: [...bins.ends],
    ends_told: bins.told,
    smallest_cell: smallestCell,
    cells: cells.map((cell) => toldCell(cell, bins)),
    left_out: left,
  };
}

/** Number of each end among the causes of a cell's table. */
const columnOf = (end: TableEnd): number =>
  end === "another_end" ? causeOf(competingEnds[0]) : causeOf(end);

function toldCell({ group, stratum, records }: TableCell, { ends, told }: Bins): RiskSetCell {
  const table = tableOfRecords(records, { ends, told });
  return {
    group,
    stratum,
    injuries: records.length,
    day: [...table.times],
    entered: [...table.entered],
    censored: [...table.censored],
    ended: Object.fromEntries(
      endsWhenTold[told].flatMap((end) => {
        const column = table.events[columnOf(end) - 1];
        return column?.some((n) => n > 0) ? [[end, [...column]]] : [];
      }),
    ),
  };
}

function tableOfRecords(records: readonly OutcomeRecord[], { ends, told }: Bins): SortedTable {
  const fold = foldingOf(told);
  const columns = {
    times: records.map(({ time }) => time),
    causes: records.map(({ end }) => {
      const kind = end === "censored" ? end : fold(end);
      return kind === "censored" || kind === "entered" ? 0 : columnOf(kind);
    }),
    entries: records.map(({ entry }) => entry),
  };
  return riskSetTable(binnedRows(columns, { ends }));
}
