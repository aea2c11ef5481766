import type { OutcomeRecord } from "../../cohort/record.js";
import { gapWidths } from "../../statistics/survival/between-visits/index.js";
import { countsBy } from "../../study/account.js";
import { spanColumnsOf } from "../../study/spans/span-columns.js";
import type { Specification } from "../../study/specification.js";
import { numbersOf } from "./numbers.js";
import type { ExactDescription } from "./site-description.js";

/** How exactly the returns of a site are known. */
export function returnsOf(
  records: readonly OutcomeRecord[],
  { question, shareBack }: Pick<Specification, "question" | "shareBack">,
): ExactDescription["returns"] {
  const returned = records.filter(({ end }) => end === "milestone");
  const { left, right, ends } = spanColumnsOf(returned, { shareBack });
  const { wide, wideShare } = gapWidths({ left, right, ends });
  return {
    milestone: question.milestone,
    n: returned.length,
    known: countsBy(returned, ({ milestone }) => milestone.known),
    wide,
    wide_share: wideShare,
    span_days: numbersOf(right.map((end, i) => end! - left[i]!)),
  };
}
