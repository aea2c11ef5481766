import type { DataQuery, HabitCode } from "../data-query.js";
import { fact, foundWith, plainly, quoted, type Wording } from "./wording.js";

const consequence = "The rows are used as they are.";
const rule = "a rule of thumb: common practice, no source";

/** So many of so many, of one rater where one is meant. */
const countOf =
  (things: string) =>
  (query: DataQuery): string => {
    const whose = query.found === null || query.found === "" ? "" : `${quoted(query.found)}: `;
    return `${whose}${fact(query, "count")} of ${fact(query, "n")} ${things}`;
  };

/** The words for queries about the habits in which a column was filled. */
export const aboutHabits: Record<HabitCode, Wording> = {
  "rater-unit-doubtful": plainly(
    "is a rater whose loaded distances are at most a fifth of, or at least five times, those of the others",
    "Check the unit: the distances may be in centimetres or in tenths of a millimetre.",
    {
      found: foundWith(
        (query) =>
          `median ${fact(query, "middle")}, n = ${fact(query, "n")}; other raters ${fact(query, "usual")}`,
      ),
      consequence,
    },
  ),
  "distance-digits-preferred": plainly(
    `end in 0 or 5: more than the one in five expected by chance, by three standard errors (${rule})`,
    "Check whether distances are rounded when they are read. No correction is needed if the device shows them in this way.",
    { found: countOf("distances"), consequence },
  ),
  "returns-heaped-on-weeks": plainly(
    `fall exactly 6, 8, 12, 13 or 26 weeks after the injury: more than the one in seven expected of the returns within three days of these weeks, by three standard errors (${rule})`,
    'Check whether days were remembered as weeks. If so, write "week" in the precision column.',
    { found: countOf("returns near these weeks"), consequence },
  ),
  "returns-heaped-on-weekday": plainly(
    `fall on the same day of the week: more than the one in seven expected by chance, by four standard errors (${rule})`,
    "Check whether the day of the visit was written instead of the day of the return.",
    {
      found: (query) => `${countOf("returns")(query)} (${fact(query, "weekday")})`,
      consequence,
    },
  ),
  "returns-heaped-in-month": plainly(
    `fall on the first or the fifteenth of a month: more than expected by chance, by four standard errors (${rule})`,
    'Check whether only the month was known. If so, write "month" in the precision column.',
    { found: countOf("returns"), consequence },
  ),
  "distance-drifts": plainly(
    `has first loaded distances that differ from those of its other half-years, by four standard errors of the median and at least half a millimetre (${rule})`,
    "Look for a new device, a new rater, another finger position or a change in referrals.",
    {
      found: foundWith(
        (query) =>
          `median ${fact(query, "middle")} millimetres, n = ${fact(query, "n")}; otherwise ${fact(query, "usual")} millimetres, n = ${fact(query, "others_n")}`,
      ),
      consequence,
    },
  ),
  "grade-share-drifts": plainly(
    `has one grade more or less often than its other half-years, by four standard errors and at least 10 percentage points (${rule})`,
    "Look for another way of grading, another grader or a change in referrals.",
    {
      found: foundWith(
        (query) =>
          `grade ${fact(query, "grade")}: ${fact(query, "here")} of ${fact(query, "n")}; otherwise ${fact(query, "usual")} of ${fact(query, "others_n")}`,
      ),
      consequence,
    },
  ),
};
