import type { InexactDates } from "./question.js";

/**
 * The single day that stands in for a milestone known to lie in (left, right].
 *
 * earliest: left + 1, the first day on which it can have been; latest: right, as if it came on the day it was
 * found; midpoint: floor((left + 1 + right) / 2), the middle of these days, a half day counted down. A date
 * known to the day gives that day under each rule. Always a whole day.
 *
 * @param interval whole days, left < right
 * @example
 * singleDay({ left: 42, right: 84 }, "midpoint") // => 63
 */
export function singleDay(
  { left, right }: { readonly left: number; readonly right: number },
  rule: InexactDates,
): number {
  switch (rule) {
    case "earliest":
      return left + 1;
    case "latest":
      return right;
    case "midpoint":
      return Math.floor((left + 1 + right) / 2);
  }
}
