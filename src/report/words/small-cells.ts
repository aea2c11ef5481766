import type { Results } from "../../study/results.js";
import { smallCell } from "../../study/results-parts.js";

/** What is written of counts with few people behind them, in one paragraph. */
export function smallCellWords({ small_cells }: Results): string {
  const { choice, smallest, found, left_out } = small_cells;
  if (choice === "written")
    return `Small cells: ${found} counts, days of curves or rows written here have fewer than ${smallest} people behind them (${smallest} is our choice). A report without them is made with --small-cells leave-out.`;
  return [
    `Small cells are left out. ${smallCell} stands for a count behind which there are fewer than ${smallest} people (but not nobody), or that would give such a count away.`,
    `Every other count is rounded to a multiple of ${smallest}, so that counts need not add up, and none is found by subtraction.`,
    "Shares and estimates were made from the exact counts and have few digits: the fewer injuries, the larger the step in which their shares are told. Limits of shares and times are rounded outwards, so that no interval is shorter than the one computed.",
    "Curves tell the share back at landmarks and whole weeks between which nobody came back or enough did, nothing between them, and end where too few are followed.",
    ...(left_out.length === 0 ? [] : [`Left out as a whole: ${left_out.join("; ")}.`]),
    "This lessens what can be learned about one person; it is no guarantee. Do not pass on this report beside another of the same data that holds small cells.",
  ].join(" ");
}
