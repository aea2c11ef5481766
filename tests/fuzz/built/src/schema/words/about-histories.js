import { fact, foundWith, plainly } from "./wording.js";
const usedAsRead = "The rows are used as they stand.";
const injuryRow = (query) => `injury in row ${fact(query, "injury_row")}`;
/** The words for doubts about sides and sequences that do not fit each other. */
export const aboutHistories = {
    "event-both-hands": {
        found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
        expected: () => "is the other hand than in a row of the same person and the same event",
        mend: () => "Check the hand in both rows; nothing to do if both hands were hurt at once.",
        consequence: usedAsRead,
    },
    "earlier-injury-contradicts": plainly("denies an earlier injury that another row of the person tells of", "Check both rows, and whether they are one person.", { found: foundWith((query) => `row ${fact(query, "other_row")}`), consequence: usedAsRead }),
    "comparison-side-injured": plainly("is measured for comparison, although the same finger of that hand is or was injured as well", "Check hand and side; nothing to do if so, but the comparison is then not with a sound finger.", { found: foundWith(injuryRow) }),
    "only-other-side-imaged": plainly("is the side of every reading of this injury: the injured one was never measured", "Check whether injured and other were swapped."),
    "note-names-other-hand": plainly("stands in a note, and the injury is on the other hand", "Check the hand of the injury and the side of the readings.", { found: foundWith((query) => `injured hand: ${fact(query, "hand")}, row ${fact(query, "injury_row")}`) }),
    "treatment-after-return": plainly("is the start of surgery, a ring or rest after unrestricted climbing", "Check both dates; if the finger was hurt again, write the day as new_rupture_date.", {
        found: foundWith((query) => `full climbing on ${fact(query, "full_climbing_date")}`),
        consequence: usedAsRead,
    }),
    "treatment-through-surgery": plainly("ends an episode of tape or ring that began before an operation and goes on through it", "Write the last day before the operation, and a new row for what was worn after it.", {
        found: foundWith((query) => `surgery on ${fact(query, "surgery")}, row ${fact(query, "other_row")}`),
        consequence: usedAsRead,
    }),
    "visits-go-back": plainly("says not yet, although an earlier visit said yes", "Check both visits; if the finger was hurt again, write the day as new_rupture_date.", {
        found: foundWith((query) => `visit on ${fact(query, "visit_date")}; yes on ${fact(query, "other_date")}, row ${fact(query, "other_row")}`),
        consequence: usedAsRead,
    }),
    "visit-before-first-visit": plainly("is a visit before the first one", "Check the date of the visit and the first visit of the injury.", {
        found: foundWith((query) => `first visit on ${fact(query, "first_visit_date")}`),
        consequence: usedAsRead,
    }),
    "gave-up-without-date": plainly("is an end of follow-up by giving up without the day of giving up", "Write the day, exact or near, as gave_up_date.", { consequence: "The row is used as one that was followed until the last contact." }),
    "grade-source-without-rows": plainly("is what the grade rests on, and no row tells of that scan or operation", "Add the row, or correct what the grade rests on."),
    "site-definition-missing": plainly("stands where the site should say what it calls this milestone, which it dates", "Write the definition in the words of the site: without it, sites are not known to count the same.", { found: () => "a blank cell", consequence: usedAsRead }),
};
