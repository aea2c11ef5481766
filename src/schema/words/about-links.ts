import { counted } from "../counted.js";
import type { LinkCode } from "../data-query.js";
import { fact, foundWith, plainly, type Wording } from "./wording.js";

const usedAsRead = "The rows are used as they are.";
const usedAsTwo = "Both rows are used as those of two people.";
const otherRow = foundWith((query) => `and row ${fact(query, "other_row")}`);

/** The words for queries about rows against each other. */
export const aboutLinks: Record<LinkCode, Wording> = {
  "identifier-twice": plainly(
    "is the name of more than one row",
    "Give each row its own name, or delete the copy.",
    {
      found: foundWith((query) => `rows ${fact(query, "rows")}`),
      consequence:
        "All these rows are set aside until this is corrected, because it is not known which is right.",
    },
  ),
  "injury-twice": plainly(
    "is the day on which the same finger of the same person was injured according to more than one row",
    "Leave out all rows but one if they are about one injury, or correct the person, the hand, the finger or the day. If each row is a visit, run pulley-outcomes fit and say so.",
    {
      found: foundWith((query) => `rows ${fact(query, "rows")}`),
      consequence: "All these rows are set aside, so that no injury is counted twice.",
    },
  ),
  "row-repeated": plainly(
    "is the same as an earlier row in every cell",
    "Leave the row out if it is a copy, or correct what should be different.",
    {
      found: (query) => `this row (like row ${fact(query, "other_row")})`,
      consequence: "The earlier row is used; this one is set aside, so that nothing is counted twice.",
    },
  ),
  "visits-differ": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: () => "differs from what another visit of the same injury says in this column",
    correction: () => "Correct one of the two, or leave the cell blank where it is not known.",
  },
  "row-without-injury": plainly(
    "is not the injury_id of any row of the injuries",
    "Check the spelling in both tables, or add the injury.",
  ),
  "injury-set-aside": {
    found: foundWith((query) => `row ${fact(query, "injury_row")} of ${fact(query, "injury_file")}`),
    expected: () => "belongs to an injury that is set aside",
    correction: () => "Correct the injury; this row can then be used as well.",
  },
  "site-unknown": plainly(
    "is not the site_id of any row of the sites",
    "Check the spelling in both tables, or add the site.",
    { consequence: "The row is used without the description of the site." },
  ),
  "possible-duplicate": plainly(
    "is a second injury of the same finger of the same person within 14 days",
    "Delete one row if both are the same injury; otherwise correct the hand, the finger or the date.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "possible-same-person": plainly(
    "is the day of an injury like one of another person: site, day, hand, finger, grade, sex and age agree",
    "Check whether one person was entered under two names.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "same-finger-again": plainly(
    "is a later injury of a finger that was injured before, but the earlier row does not mention it",
    "If it is a new rupture, write its day as new_rupture_date in the earlier row.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "person-contradicts-itself": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: (query) => `contradicts an earlier row of the same person (${fact(query, "what")})`,
    correction: () => "Check both rows, and whether they are about the same person.",
    consequence: usedAsRead,
  },
  "completed-without-milestone": plainly(
    "says that follow-up was completed, but no milestone and no visit is recorded",
    "Add the milestones or the visits, or correct how follow-up ended.",
  ),
  "grade-4-needs-several-or-complication": plainly(
    "is grade 4 with a single injured pulley and no complication",
    "Check the grade and the pulleys, or enter the complication at a visit (the meaning of the grades is common practice).",
  ),
  "surgery-in-grade-1": plainly(
    "is the treatment of an injury of grade 1",
    "Check the treatment and the grade.",
  ),
  "surgery-twice": plainly(
    "is an operation within 14 days of another one on the same injury",
    "Delete one row if both are the same operation.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "same-treatment-overlaps": plainly(
    "begins before an earlier episode of the same treatment ends",
    "Join the two episodes, or correct their dates.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "loaded-below-rest": plainly(
    "is a loaded distance that is smaller than the distance at rest (same day, side, pulley and rater)",
    "Check whether the two were swapped.",
    { found: foundWith((query) => `at rest ${fact(query, "rest")}, row ${fact(query, "other_row")}`) },
  ),
  "loaded-mostly-below-rest": plainly(
    "pairs of readings in this file, which is most of them, have a loaded distance that is smaller than the distance at rest",
    'Check whether "rest" and "loaded" were swapped throughout.',
    { consequence: usedAsRead },
  ),
  "distance-against-grade": {
    found: foundWith((query) => `grade ${fact(query, "grade")}`),
    expected: (query) =>
      `is ${fact(query, "direction")} the study's threshold of ${fact(query, "threshold")} millimetres, which is unusual for the grade`,
    correction: () =>
      "Check the distance and the grade. Both may be right, since thresholds differ between studies.",
  },
  "bowstringing-against-distance": plainly(
    "is a first loaded distance under 2 millimetres in a finger with visible bowstringing",
    "Check the distance and the bowstringing.",
  ),
  "sides-equal": plainly(
    "is exactly the same distance as on the other side",
    "Check whether one side was copied from the other.",
    { found: otherRow },
  ),
  "imaging-pulley-not-injured": plainly(
    "is not among the injured pulleys of this injury",
    "Check the pulley here and in the table of injuries. No action is needed if it was measured for comparison.",
    { found: foundWith((query) => `injured: ${fact(query, "pulleys")}`) },
  ),
  "distance-unit-doubtful": plainly(
    "is the median of the loaded distances, which is unusual in millimetres",
    "Check the unit: the distances may be in centimetres or in tenths of a millimetre.",
    { consequence: usedAsRead },
  ),
  "score-scale-doubtful": plainly(
    "is the highest total in this column, although totals may reach 100",
    "Check whether the totals were written on another scale, such as 0 to 10.",
    { consequence: usedAsRead },
  ),
  "visit-contradicts-milestone": {
    found: foundWith(
      (query) => `visit on ${fact(query, "visit_date")}, milestone ${fact(query, "milestone_date")}`,
    ),
    expected: () => "contradicts the date of this milestone in the table of injuries",
    correction: () => "Check the visit and the date of the milestone.",
    consequence: usedAsRead,
  },
  "text-may-identify": {
    found: (query) => `a free text (${fact(query, "kind")} at character ${fact(query, "character")})`,
    expected: () => "may identify a person",
    correction: () =>
      "Remove whatever names or singles out a person. Only the usual forms are recognised, so read the other notes as well.",
    consequence: "The row is used. Free text is not analysed and appears in no report and in no shared copy.",
  },
  "pseudonym-may-identify": {
    found: (query) => `the pseudonym (${fact(query, "kind")}?)`,
    expected: () => "may identify the person",
    correction: () =>
      "Give the person a code that says nothing about them, and keep the list of codes in a separate place.",
    consequence: "The row is used as it is. A shared copy has another name in place of the pseudonym.",
  },
  "person-ids-alike": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: () => "differs from another id of the site only in spelling",
    correction: () =>
      "Use one spelling if both are the same person. No action is needed if they are two people.",
    consequence: usedAsTwo,
  },
  "site-ids-alike": {
    found: foundWith(
      (query) => `${fact(query, "other_file")}, row ${fact(query, "other_row")}: ${fact(query, "other")}`,
    ),
    expected: () => "differs from the name of another site only in spelling",
    correction: () =>
      "Use one spelling if both are the same site. No action is needed if they are two sites.",
    consequence: "The rows are used as those of two sites.",
  },
  "person-ids-at-several-sites": {
    found: (query) => counted(query.found ?? "", "person id", "person ids"),
    expected: (query) =>
      `${query.found === "1" ? "occurs" : "occur"} at more than one site, with ${counted(fact(query, "injuries"), "injury", "injuries")}`,
    correction: () =>
      "If sites share their ids, write person_ids: shared under data in the study file. If each site numbers its own people, write person_ids: per_site.",
    consequence:
      "Until then such an id is counted as a different person at each site. If it is one person, intervals are, as a rule, too narrow.",
  },
  "near-duplicate-injury": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: (query) =>
      `has an injury like that of another person: site, hand, finger, grade, sex and year of birth agree, and ${fact(query, "why")}`,
    correction: () => "Check whether one person was entered twice. If so, leave out one of the rows.",
    consequence: usedAsTwo,
  },
  "near-duplicates-not-all-compared": {
    found: (query) => counted(query.found ?? "", "row", "rows"),
    expected: (query) =>
      `with the same site, hand, finger, grade and sex are so close in time that each was compared only with the ${fact(query, "most")} nearest`,
    correction: () =>
      "Check whether these columns are really the same in every row. If so, no action is needed.",
    consequence: "Further rows that are like another are not listed.",
  },
  "reading-twice": plainly(
    "is the number of a reading that appears twice: day, pulley, position, side and rater are the same",
    "Number the readings 1, 2, 3 if one rater repeated the measurement; otherwise delete the copy.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "distance-tenfold": plainly(
    "is about ten times, or a tenth of, the usual value of the other readings",
    "Check the decimal point and the unit.",
    { found: foundWith((query) => `usual: ${fact(query, "usual")} millimetres`) },
  ),
};
