import type { HistoryCode } from "../data-query.js";
import { fact, foundWith, plainly, type Wording } from "./wording.js";

const usedAsRead = "The rows are used as they are.";
const injuryRow = (query: Parameters<typeof fact>[0]) => `injury in row ${fact(query, "injury_row")}`;

/** The words for queries about sides and sequences that do not fit each other. */
export const aboutHistories: Record<HistoryCode, Wording> = {
  "event-both-hands": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: () => "is not the hand in another row of the same person and the same event",
    correction: () => "Check the hand in both rows. No action is needed if both hands were injured at once.",
    consequence: usedAsRead,
  },
  "earlier-injury-contradicts": plainly(
    "says that there was no earlier injury, but another row of the person describes one",
    "Check both rows, and whether they are about the same person.",
    { found: foundWith((query) => `row ${fact(query, "other_row")}`), consequence: usedAsRead },
  ),
  "comparison-side-injured": plainly(
    "is measured for comparison, although the same finger of that hand is or was injured too",
    "Check the hand and the side. If both are right, no action is needed, but the comparison is not with an uninjured finger.",
    { found: foundWith(injuryRow) },
  ),
  "only-other-side-imaged": plainly(
    "is the side of every reading of this injury: the injured side was never measured",
    'Check whether "injured" and "other" were swapped.',
  ),
  "note-names-other-hand": plainly(
    "appears in a note, but the injury is on the other hand",
    "Check the hand of the injury and the side of the readings.",
    { found: foundWith((query) => `injured hand: ${fact(query, "hand")}, row ${fact(query, "injury_row")}`) },
  ),
  "treatment-after-return": plainly(
    "is the start of surgery, a ring or rest, after the return to unrestricted climbing",
    "Check both dates. If the finger was injured again, write the day as new_rupture_date.",
    {
      found: foundWith((query) => `full climbing on ${fact(query, "full_climbing_date")}`),
      consequence: usedAsRead,
    },
  ),
  "treatment-through-surgery": plainly(
    "ends an episode of tape or ring that began before an operation and continues through it",
    "Write the last day before the operation, and a new row for what was worn after it.",
    {
      found: foundWith((query) => `surgery on ${fact(query, "surgery")}, row ${fact(query, "other_row")}`),
      consequence: usedAsRead,
    },
  ),
  "first-distance-after-treatment": plainly(
    "is the first reading of this distance, taken after the treatment began",
    "Check both dates, or add an earlier reading.",
    {
      found: foundWith((query) => `${fact(query, "treatment")} from ${fact(query, "start_date")} on`),
      consequence: "It is no baseline: the injury is left out of the change of the distance.",
    },
  ),
  "visits-go-back": plainly(
    'is the answer of a visit, although an earlier visit said "yes"',
    "Check both visits. If the finger was injured again, write the day as new_rupture_date.",
    {
      found: foundWith(
        (query) =>
          `visit on ${fact(query, "visit_date")}; yes on ${fact(query, "other_date")}, row ${fact(query, "other_row")}`,
      ),
      consequence: usedAsRead,
    },
  ),
  "visit-before-first-visit": plainly(
    "is a visit before the first visit",
    "Check the date of the visit and the first_visit_date of the injury.",
    {
      found: foundWith((query) => `first visit on ${fact(query, "first_visit_date")}`),
      consequence: usedAsRead,
    },
  ),
  "gave-up-without-date": plainly(
    "says that follow-up ended because climbing was given up, but the day of giving up is blank",
    "Write the day, exact or approximate, as gave_up_date.",
    { consequence: "The row is used as if it had been followed until the last contact." },
  ),
  "grade-source-without-rows": plainly(
    "is the basis of the grade, but no row describes that scan or operation",
    "Add the row, or correct the basis of the grade.",
  ),
  "site-definition-missing": plainly(
    "is blank, although the site dates this milestone and should define it here",
    "Write the definition in the words of the site. Without it, nobody can tell whether two sites count the same thing.",
    { found: () => "the cell", consequence: usedAsRead },
  ),
};
