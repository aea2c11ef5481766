import type { ExactCell, ExactRow } from "../exact-results.js";
import type { CohortCell, CohortRow } from "../results.js";
import { smallCell } from "../results-parts.js";
import { type Counting, shareOf } from "./counting.js";

/** Groups side by side, term by term: small counts left out, and what could tell them with them. */
export function describedWithout(rows: readonly ExactRow[], counting: Counting): CohortRow[] {
  const told = rows.map((row) => ({
    ...row,
    overall: cellOf(row.overall, counting),
    groups: row.groups.map((cell) => cellOf(cell, counting)),
  }));
  const incomplete = new Set(
    told.flatMap(({ variable, groups, overall }) => ([overall, ...groups].some(isHidden) ? [variable] : [])),
  );
  // how far groups lie apart tells a count of one group from those of the other
  return told.map((row) => ({
    ...row,
    standardised_differences: row.standardised_differences.map((value) =>
      incomplete.has(row.variable) ? null : counting.rounded(value, "other"),
    ),
  }));
}

const isHidden = ({ n, count }: CohortCell): boolean => n === smallCell || count === smallCell;

function cellOf(cell: ExactCell, counting: Counting): CohortCell {
  const n = counting.told(cell.n);
  const missing = counting.told(cell.missing);
  if (cell.count !== null) {
    const count = counting.part(cell.count, cell.n);
    return { ...cell, n, missing, count, share: cell.share === null ? null : shareOf(count, n) };
  }
  const number = (value: number | null, isTold: boolean) =>
    isTold ? counting.rounded(value, "other") : null;
  const enough = n !== smallCell;
  const enoughBeyond = counting.isEnoughFor("quartile", cell.n);
  return {
    ...cell,
    n,
    missing,
    mean: number(cell.mean, enough),
    standard_deviation: number(cell.standard_deviation, enough),
    median: number(cell.median, counting.isEnoughFor("median", cell.n)),
    lower_quartile: number(cell.lower_quartile, enoughBeyond),
    upper_quartile: number(cell.upper_quartile, enoughBeyond),
  };
}
