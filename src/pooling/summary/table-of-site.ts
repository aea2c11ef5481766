import type { Analysed } from "../../study/analysed.js";
import { type Beside, type RiskSetsMade, riskSetsOf } from "../tables/index.js";
import type { ExactGroup } from "./site-groups.js";
import type { SiteSummary } from "./site-summary.js";
import type { Release } from "./withheld.js";

/** How a risk-set table is asked for with a summary. */
export interface RiskSetsAsked {
  /** Width of the bins, days. */
  readonly binDays: number;
  /** Whether bins may be put together where counts in them are small. */
  readonly coarser: boolean;
}

/**
 * The risk-set table that leaves with a summary, or why none does: what is left out of it may not be found from the figures of the groups that
 * leave beside it.
 */
export function tableOfSite(
  { groups: { groups: compared }, specification: asked }: Pick<Analysed, "groups" | "specification">,
  {
    groups,
    release,
    smallCells: { choice, smallest },
    riskSets: { binDays, coarser },
  }: {
    readonly groups: readonly ExactGroup[];
    readonly release: Release;
    readonly smallCells: SiteSummary["small_cells"];
    readonly riskSets: RiskSetsAsked;
  },
): RiskSetsMade {
  const isWritten = choice === "written";
  return riskSetsOf(compared, {
    asked,
    binDays,
    coarser,
    smallestCell: isWritten ? 1 : smallest,
    ...(isWritten ? {} : { beside: besideOf(groups, { release, smallest }) }),
  });
}

function besideOf(
  groups: readonly ExactGroup[],
  { release, smallest }: { readonly release: Release; readonly smallest: number },
): Beside {
  const told = groups.filter((group) => release.group(group) === null);
  return {
    groups: told.map(({ members }) => members),
    endsWouldReveal: told.some((group) => {
      const untold = group.otherEnds.filter((end) => release.otherEnd(group, end) !== null);
      const people = untold.reduce((sum, { persons }) => sum + persons, 0);
      return untold.length < group.otherEnds.length && people > 0 && people < smallest;
    }),
  };
}
