import type { CohortTables } from "../../schema/cohort-tables.js";
import type { IsoDate } from "../../schema/dates.js";
import type { Plan } from "../../study/plan.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import { smallCell } from "../../study/results-parts.js";
import { fewestRows } from "../../study/small-cells/index.js";
import { describeSite, siteCohort, tablesBySite, withoutSmallCounts } from "../description/index.js";
import { harmonise } from "./harmonise.js";

/** The table over the sites, and how many of its counts have fewer people behind them than the smallest cell. */
export interface HarmonisedTables {
  readonly told: Harmonised;
  readonly smallCells: number;
}

/**
 * The sites of joined tables described and set beside one another.
 *
 * @param tables joined, each injury with the name of its site
 * @param plan what is asked
 * @param options what is written of counts with fewer people behind them than the smallest cell
 */
export function harmonisedTables(
  tables: CohortTables,
  plan: Plan,
  { choice, smallest }: { readonly choice: "written" | "leave-out"; readonly smallest: number },
): HarmonisedTables {
  const exact = tablesBySite(tables).map(({ site, tables: own }) => {
    const asked = withClosing(plan, tables.closings?.get(site) ?? null);
    return { own, description: describeSite(siteCohort(own, { site, plan: asked }), asked) };
  });
  const without = exact.map(({ own, description }) =>
    withoutSmallCounts(description, fewestRows(own, smallest)),
  );
  const harmonisedWithout = harmonise(without, plan);
  return {
    told:
      choice === "leave-out"
        ? harmonisedWithout
        : harmonise(
            exact.map(({ description }) => description),
            plan,
          ),
    smallCells: countOf(harmonisedWithout),
  };
}

/** The plan with the closing day of one site. */
function withClosing(plan: Plan, closedOn: IsoDate | null): Plan {
  const { closed_on: _, ...data } = plan.data;
  return { ...plan, data: { ...data, ...(closedOn === null ? {} : { closed_on: closedOn }) } };
}

/** Counts that are left out. */
function countOf(value: unknown): number {
  if (value === smallCell) return 1;
  if (value === null || typeof value !== "object") return 0;
  return Object.values(value).reduce((sum: number, part) => sum + countOf(part), 0);
}
