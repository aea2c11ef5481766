import type { LinkCode } from "../data-query.js";
import { fact, foundWith, plainly, type Wording } from "./wording.js";

const usedAsRead = "The rows are used as they stand.";
const usedAsTwo = "Both rows are used, as two persons.";
const otherRow = foundWith((query) => `and row ${fact(query, "other_row")}`);

/** The words for doubts about rows against each other. */
export const aboutLinks: Record<LinkCode, Wording> = {
  "identifier-twice": plainly(
    "names more than one row",
    "Give each row a name of its own, or delete the copy.",
    {
      found: foundWith((query) => `rows ${fact(query, "rows")}`),
      consequence: "All these rows are set aside until then, since none can be trusted.",
    },
  ),
  "row-without-injury": plainly(
    "is not the injury_id of any row of the injuries",
    "Check the spelling in both tables, or add the injury.",
  ),
  "injury-set-aside": {
    found: foundWith((query) => `row ${fact(query, "injury_row")} of ${fact(query, "injury_file")}`),
    expected: () => "belongs to an injury that is set aside",
    mend: () => "Answer what is asked about the injury; this row then follows.",
  },
  "site-unknown": plainly(
    "is not the site_id of any row of the sites",
    "Check the spelling in both tables, or add the site.",
    { consequence: "The row is used, without what the site says about itself." },
  ),
  "possible-duplicate": plainly(
    "is a second injury of the same finger of the same person within 14 days",
    "Delete one row if it is the same injury, or correct hand, finger or date.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "possible-same-person": plainly(
    "is much like an injury of another person: site, day, hand, finger, grade, sex and age agree",
    "Check whether one person was entered under two names.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "same-finger-again": plainly(
    "is a later injury of a finger injured before, and the earlier row does not say so",
    "If it is a new rupture, write its day as new_rupture_date of the earlier row.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "person-contradicts-itself": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: (query) => `does not agree with an earlier row of the same person in ${fact(query, "what")}`,
    mend: () => "Check both rows, and whether they are one person.",
    consequence: usedAsRead,
  },
  "completed-without-milestone": plainly(
    "is the end of a follow-up without any milestone or visit",
    "Add the milestones or the visits, or correct the end of follow-up.",
  ),
  "grade-4-needs-several-or-complication": plainly(
    "is grade 4 with one injured pulley and no complication",
    "Check the grade and the pulleys, or enter the complication at a visit (the meaning of the grades is common practice).",
  ),
  "surgery-in-grade-1": plainly(
    "is surgery after an injury of grade 1",
    "Check the treatment and the grade.",
  ),
  "surgery-twice": plainly(
    "is surgery within 14 days of another operation on the same injury",
    "Delete one row if it is the same operation.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "same-treatment-overlaps": plainly(
    "begins before an earlier episode of the same treatment ends",
    "Join the two episodes, or correct their dates.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "loaded-below-rest": plainly(
    "is a loaded distance below the one at rest, same day, side, pulley and rater",
    "Check whether the two were swapped.",
    { found: foundWith((query) => `at rest ${fact(query, "rest")}, row ${fact(query, "other_row")}`) },
  ),
  "loaded-mostly-below-rest": plainly(
    "is how many pairs of this file have a loaded distance below the one at rest: most",
    "Check whether rest and loaded were swapped throughout.",
    { consequence: usedAsRead },
  ),
  "distance-against-grade": {
    found: foundWith((query) => `grade ${fact(query, "grade")}`),
    expected: (query) =>
      `is ${fact(query, "direction")} the study's threshold of ${fact(query, "threshold")} mm, which is unusual for the grade`,
    mend: () => "Check the distance and the grade; thresholds differ between studies, so both may be right.",
  },
  "bowstringing-against-distance": plainly(
    "is a first loaded distance under 2 mm with visible bowstringing",
    "Check the distance and the bowstringing.",
  ),
  "sides-equal": plainly(
    "is to the digit the same distance as on the other side",
    "Check whether one side was copied from the other.",
    { found: otherRow },
  ),
  "imaging-pulley-not-injured": plainly(
    "is not among the injured pulleys of this injury",
    "Check the pulley here and in the injuries; nothing to do if it was measured for comparison.",
    { found: foundWith((query) => `injured: ${fact(query, "pulleys")}`) },
  ),
  "distance-unit-doubtful": plainly(
    "is the median of the loaded distances, which is unusual in millimetres",
    "Check the unit: centimetres, or tenths of a millimetre?",
    { consequence: usedAsRead },
  ),
  "score-scale-doubtful": plainly(
    "is the highest total in this column, although totals may reach 100",
    "Check whether they were written on another scale, such as 0 to 10.",
    { consequence: usedAsRead },
  ),
  "visit-contradicts-milestone": {
    found: foundWith(
      (query) => `visit on ${fact(query, "visit_date")}, milestone ${fact(query, "milestone_date")}`,
    ),
    expected: () => "does not agree with the date of this milestone in the injuries",
    mend: () => "Check the visit and the date of the milestone.",
    consequence: usedAsRead,
  },
  "text-may-identify": {
    found: (query) => `a free text (${fact(query, "kind")} at character ${fact(query, "character")})`,
    expected: () => "may tell who somebody is",
    mend: () =>
      "Take out what names or singles out a person. Only the usual forms are recognised: read the other notes as well.",
    consequence: "The row is used; free text is not analysed and stands in no report and no shared copy.",
  },
  "pseudonym-may-identify": {
    found: (query) => `the pseudonym (${fact(query, "kind")}?)`,
    expected: () => "may tell who it stands for",
    mend: () => "Give the person a code that says nothing, and keep the list of codes apart.",
    consequence: "The row is used as it stands; a shared copy has another name in its place.",
  },
  "person-ids-alike": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: () => "differs from another id of the site in its writing only",
    mend: () => "Write one id if it is one person; nothing to do if they are two.",
    consequence: usedAsTwo,
  },
  "site-ids-alike": {
    found: foundWith(
      (query) => `${fact(query, "other_file")}, row ${fact(query, "other_row")}: ${fact(query, "other")}`,
    ),
    expected: () => "differs from the name of another site in its writing only",
    mend: () => "Write one name if it is one site; nothing to do if they are two.",
    consequence: "The rows are used as those of two sites.",
  },
  "near-duplicate-injury": {
    found: foundWith((query) => `row ${fact(query, "other_row")}: ${fact(query, "other")}`),
    expected: (query) =>
      `has an injury much like another person's: site, hand, finger, grade, sex and year of birth agree, and ${fact(query, "why")}`,
    mend: () => "Check whether one person was entered twice; leave one of the rows out if so.",
    consequence: usedAsTwo,
  },
  "near-duplicates-not-all-compared": {
    found: (query) => `${query.found} rows`,
    expected: (query) =>
      `of one site, hand, finger, grade and sex lie so close in time that each was compared with the ${fact(query, "most")} nearest only`,
    mend: () =>
      "Look whether these columns say the same in every row; if they are right, nothing is to be done.",
    consequence: "Further rows that are much like another are not told.",
  },
  "reading-twice": plainly(
    "is the number of a reading that is there twice: day, pulley, position, side and rater are the same",
    "Number the readings 1, 2, 3 if one rater repeated it, or delete the copy.",
    { found: otherRow, consequence: usedAsRead },
  ),
  "distance-tenfold": plainly(
    "is about ten times, or a tenth of, what is usual in the other readings",
    "Look for a decimal point that was lost or added, and check the unit.",
    { found: foundWith((query) => `usual: ${fact(query, "usual")} mm`) },
  ),
};
