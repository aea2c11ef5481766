import type { Count, Results } from "../study/results.js";

/** As the results write it. */
const smallCell: Exclude<Count, number> = "[left out]";

/** What is written of counts with few people behind them, in one paragraph. */
export function smallCellWords({ small_cells }: Results): string {
  const { choice, smallest, found, left_out } = small_cells;
  if (choice === "written")
    return `Small cells: ${found} counts, days of curves or rows in this report rest on fewer than ${smallest} people (${smallest} is our choice). A report without them is made with --small-cells leave-out.`;
  return [
    `Small cells are left out. ${smallCell} stands for a count that rests on somebody, but on fewer than ${smallest} people, or that would give such a count away.`,
    `Every other count is rounded to a multiple of ${smallest}, so that counts need not add up, and none is found by subtraction.`,
    "Shares and estimates were made from the exact counts and have few digits: the fewer injuries, the coarser the rounding of their shares. Limits of shares and times are rounded outwards, so that no interval is narrower than the one computed.",
    "Curves give the share back at landmarks and at whole weeks between which nobody or enough people returned, and nothing in between; they end where too few are followed.",
    ...(left_out.length === 0 ? [] : [`Left out as a whole: ${left_out.join("; ")}.`]),
    "This lessens what can be learned about one person; it is no guarantee. Do not pass on this report together with another of the same data that holds small cells.",
  ].join(" ");
}
