import { answer } from "../../study/answer.js";
import { type Count, smallCell } from "../../study/results-parts.js";
import { type Fewest, withoutSmallCells } from "../../study/small-cells/index.js";
import type { ReadOfSite } from "./read-of-site.js";
import type { SiteSummary } from "./site-summary.js";

type Quality = SiteSummary["quality"];
type Kinds = NonNullable<Quality["queries"]>;

/** What became of the rows of a site; rows and queries of tables that hold other sites as well are not counted. */
export function qualityOf(
  { read, plan, among }: ReadOfSite,
  {
    smallCells: { choice, smallest },
    fewest,
  }: { readonly smallCells: SiteSummary["small_cells"]; readonly fewest: Fewest },
): Quality {
  const exact = answer(read, plan, { smallestCell: smallest });
  const { accounting, queries } = choice === "written" ? exact : withoutSmallCells(exact, fewest);
  const alone = among < 2;
  return {
    tables: alone
      ? accounting.tables.map(({ table, read: rows, used, set_aside }) => ({
          table,
          read: rows,
          used,
          set_aside,
        }))
      : null,
    queries: alone ? queriesByKind(queries) : null,
    analysis: accounting.analysis,
  };
}

/** Queries of one kind together, whatever the file and the column; a number that is left out leaves the sum out. */
function queriesByKind(queries: readonly (Omit<Kinds[number], "n"> & { readonly n: Count })[]): Kinds {
  const kinds = new Map<string, Kinds[number]>();
  for (const { code, severity, n } of queries) {
    const key = `${severity} ${code}`;
    const before = kinds.get(key);
    const sum =
      before === undefined ? n : before.n === smallCell || n === smallCell ? smallCell : before.n + n;
    kinds.set(key, { code, severity, n: sum });
  }
  return [...kinds.values()];
}
