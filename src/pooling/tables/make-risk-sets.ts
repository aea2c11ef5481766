import { causeOf } from "../../cohort/columns.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import { competingEnds } from "../../schema/terms.js";
import { binnedRows, riskSetTable, type SortedTable } from "../../statistics/pooling/tables/index.js";
import type { Members, Settled } from "../../study/groups.js";
import { isInStratum, strataOf } from "../../study/strata.js";
import { asAsked, type Bins, coarseEnough, foldingOf } from "./coarser-bins.js";
import type { TableCell } from "./counted-people.js";
import type { RiskSetCell, RiskSets, TableEnd } from "./risk-sets.js";
import { suppressCells } from "./suppress-cells.js";

/** How a table of risk sets is asked for. */
export interface TableAsked {
  /** Width of the bins in days; a week where nothing else is asked for. */
  readonly binDays: number;
  /** Fewest people behind a count that leaves. */
  readonly smallestCell: number;
  /** Whether bins may be put together where counts in them are small. */
  readonly coarser: boolean;
}

/**
 * Why no table leaves: `no-rows`; `between-visits`: the returns are known only between two days, so that a table would place each on one;
 * `small-cells`: no group within a stratum has enough people; `small-bins`: counts of too few people in the bins asked for (coarser ones
 * would do where `coarser_would_do`), or in any.
 */
export const noTableReasons = ["no-rows", "between-visits", "small-cells", "small-bins"] as const;

export type RiskSetsMade =
  | { readonly leaves: true; readonly risk_sets: RiskSets }
  | {
      readonly leaves: false;
      readonly reason: (typeof noTableReasons)[number];
      readonly coarser_would_do: boolean;
    };

const refused = (reason: (typeof noTableReasons)[number], coarserWouldDo = false): RiskSetsMade => ({
  leaves: false,
  reason,
  coarser_would_do: coarserWouldDo,
});

/** Records by group and stratum, and how many lack what a stratum needs. */
function cellsOf(groups: readonly Members[], asked: Settled) {
  const records = groups.flatMap((group) => group.records);
  const fields = asked.comparison.strata;
  const strata = fields.length === 0 ? null : strataOf(records, fields);
  let at = 0;
  let lacking = 0;
  const cells = groups.flatMap(({ label, records: own }): TableCell[] => {
    const from = at;
    at += own.length;
    if (strata === null) return [{ group: label, stratum: null, records: own }];
    lacking += own.filter((_, i) => !isInStratum(strata, from + i)).length;
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
  { asked, binDays, smallestCell, coarser }: TableAsked & { readonly asked: Settled },
): RiskSetsMade {
  if (asked.path === "spans") return refused("between-visits");
  const { cells, lacking } = cellsOf(groups, asked);
  if (cells.every(({ records }) => records.length === 0)) return refused("no-rows");
  const { kept, small, wouldReveal } = suppressCells(cells, smallestCell);
  if (kept.length === 0) return refused("small-cells");
  const settings = { binDays, smallest: smallestCell };
  const bins = asAsked(kept, settings) ?? (coarser ? coarseEnough(kept, settings) : null);
  if (bins === null) return refused("small-bins", !coarser && coarseEnough(kept, settings) !== null);
  const out = (reason: RiskSets["left_out"][number]["reason"], n: number, injuries: number | null) =>
    n === 0 ? [] : [{ reason, cells: n, injuries }];
  return {
    leaves: true,
    risk_sets: {
      format: "pulley-outcomes risk sets 1",
      intervals_take: "every injury on its own",
      by: asked.comparison.by,
      strata: [...asked.comparison.strata],
      not_held_equal: [...asked.comparison.numbers],
      bin_days: binDays,
      bin_ends: [...bins.ends],
      ends_told: bins.told,
      smallest_cell: smallestCell,
      cells: kept.map((cell) => toldCell(cell, bins)),
      left_out: [
        ...out("small-cell", small.length, null),
        ...out("would-reveal", wouldReveal.length, null),
        ...out("missing-covariate", lacking === 0 ? 0 : 1, lacking >= smallestCell ? lacking : null),
      ],
    },
  };
}

const endsWhere: Readonly<Record<Bins["told"], readonly TableEnd[]>> = {
  each: ["milestone", ...competingEnds],
  as_one: ["milestone", "another_end"],
  as_ends_of_follow_up: ["milestone"],
};

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
      endsWhere[told].flatMap((end) => {
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
