import { adjustersOf } from "../../study/strata.js";
import type { FitModel } from "./round-files.js";
import type { SiteRows } from "./site-rows.js";

/** What the parameters of a fit tell apart among a site's rows: the compared groups, and levels that have a parameter. */
function cutsOf({ records, groups }: SiteRows, model: FitModel): readonly (readonly (string | null)[])[] {
  const { strata } = adjustersOf(model.asked.compare.adjust_for);
  const fields = model.fit === "hazards" ? [] : strata;
  return [groups, ...fields.map((field) => records.map(({ covariates }) => covariates[field]))];
}

/** Places of the rows of a value that fewer people have than the smallest cell. */
function ofFewPeople(values: readonly (string | null)[], { records }: SiteRows, smallest: number) {
  const people = new Map<string | null, Set<string>>();
  values.forEach((value, i) => {
    people.set(value, (people.get(value) ?? new Set<string>()).add(records[i]!.person));
  });
  return values.flatMap((value, i) => (people.get(value)!.size < smallest ? [i] : []));
}

/**
 * The rows without groups, and levels with a parameter, of fewer people than the smallest cell: the score of such a parameter would be
 * a sum over so few. Leaving out by what the model holds equal changes no parameter, it only tells less.
 */
export function withoutSmallGroups(
  rows: SiteRows,
  { model, smallest }: { readonly model: FitModel; readonly smallest: number },
): SiteRows {
  const few = new Set(cutsOf(rows, model).flatMap((values) => ofFewPeople(values, rows, smallest)));
  if (few.size === 0) return rows;
  const kept = <Value>(values: readonly Value[]) => values.filter((_, i) => !few.has(i));
  // a level may have become a small one by this
  return withoutSmallGroups(
    {
      ...rows,
      records: kept(rows.records),
      groups: kept(rows.groups),
      leftOut: rows.leftOut + few.size,
    },
    { model, smallest },
  );
}
