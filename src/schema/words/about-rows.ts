import type { RowCode } from "../data-query.js";
import { labelOf } from "../labels.js";
import { fact, foundWith, plainly, type Wording } from "./wording.js";

const injuredOn = foundWith((query) => `injury on ${fact(query, "injury_date")}`);
const of = (name: string, said: string) => foundWith((query) => `${said} ${fact(query, name)}`);
const checkGrade =
  "Check the grade, the pulleys and their extents (the meaning of the grades is common practice).";

/** The words for queries about a row against itself. */
export const aboutRows: Record<RowCode, Wording> = {
  "extents-not-matching-pulleys": {
    found: foundWith((query) => `pulleys: ${fact(query, "pulleys")}`),
    expected: () => "does not give one extent for each pulley",
    correction: () => "Write as many extents as pulleys, in the same order, separated by |.",
    consequence: "The row is used, but its extents are not compared with the grade until this is corrected.",
  },
  "pulley-twice": plainly("names a pulley twice", "Write each injured pulley once."),
  "event-before-injury": plainly("is before the injury", "Check this date and the date of the injury.", {
    found: injuredOn,
  }),
  "event-after-last-contact": plainly(
    "is after the last contact",
    "Check the date, or move the last contact to the last day on which the person's state was known.",
    { found: of("last_contact_date", "last contact on") },
  ),
  "date-in-future": plainly(
    "is after the day on which the data were closed",
    "Check the date, and closed_on in the study file.",
    {
      found: of("closed_on", "data closed on"),
    },
  ),
  "milestones-out-of-order": {
    found: foundWith((query) => `${labelOf(fact(query, "earlier"))} on ${fact(query, "earlier_date")}`),
    expected: (query) =>
      `puts ${labelOf(fact(query, "later"))} before ${labelOf(fact(query, "earlier"))}, which is expected to come first`,
    correction: () => "Check both dates, and how exactly they are known.",
  },
  "interval-inside-out": {
    found: foundWith((query) => `${fact(query, "other_column")}: ${fact(query, "other_date")}`),
    expected: (query) =>
      `does not fit ${fact(query, "other_column")}: the three dates of a milestone must be in the order not before, date, not after`,
    correction: () => "Check the three dates of this milestone.",
  },
  "later-without-bound": plainly(
    "says that only a day before the milestone is known, but there is no such day, or also a date",
    "Write the last day known to be before the milestone in the not_before column, and no date; or correct the precision.",
  ),
  "interval-over-26-weeks": plainly(
    "ends an interval of more than 26 weeks in which the milestone was reached",
    "Check whether a visit in between narrows it.",
    { found: of("not_before", "not before") },
  ),
  "episode-inside-out": plainly("is before the start of the same treatment", "Check the start and the end.", {
    found: of("start_date", "start on"),
  }),
  "milestone-after-giving-up": plainly(
    "is after the day on which climbing was given up",
    "Check both dates. Leave the day of giving up blank if climbing was taken up again.",
    { found: of("gave_up_date", "given up on") },
  ),
  "milestone-after-new-rupture": plainly(
    "is after the day of a new rupture of the same finger",
    "Check both dates. Write the first return; leave it blank if the finger ruptured again before any.",
    { found: of("new_rupture_date", "new rupture on") },
  ),
  "grade-3-without-complete-a2": plainly("is grade 3 without a complete rupture of A2", checkGrade),
  "grade-3-with-second-complete": plainly("is grade 3 with a second pulley completely ruptured", checkGrade),
  "grade-2-with-complete-a2": plainly("is grade 2 with a complete rupture of A2", checkGrade),
  "grade-1-with-tear": plainly("is grade 1, a strain, with a partial or complete rupture", checkGrade),
  "grade-4a-visible-bowstringing": plainly(
    "is grade 4a with visible bowstringing, which is usually 4b",
    checkGrade,
  ),
  "grade-4b-without-bowstringing": plainly(
    "is grade 4b with several pulleys and no visible bowstringing, which is usually 4a",
    checkGrade,
  ),
  "thumb-with-grade": plainly(
    "is a finger to which this system of pulleys and grades does not apply",
    "Check the finger.",
  ),
  "minor-pulley-alone": plainly(
    "is a grade above 1, although none of A2, A3 and A4 is injured",
    "Check the pulleys and the grade.",
  ),
  "years-climbing-exceed-age": plainly(
    "would mean that climbing began before the age of three",
    "Check the years of climbing and the age.",
    { found: of("age_at_injury", "age") },
  ),
  "level-not-on-scale": {
    expected: (query) => `is not a level of the scale ${fact(query, "scale")}`,
    correction: () => "Check the scale and the level. Write one level, the best of the period.",
  },
  "level-below-previous": plainly(
    "is below the level before the injury, although the return to the previous level has a date",
    "Check the levels and the date of the previous level.",
    { found: of("level_before", "level before:") },
  ),
  "return-unusually-late": plainly(
    "is a return more than 26 weeks after an injury of grade 1",
    "Check the date and the grade.",
    { found: injuredOn },
  ),
  "return-unusually-early": plainly(
    "is a return less than 8 weeks after an injury of grade 4b",
    "Check the date and the grade.",
    { found: injuredOn },
  ),
  "first-visit-after-return": plainly(
    "is a first visit after the return to unrestricted climbing, so that the row was recorded in retrospect",
    "No action is needed if that is right. A study with entry: first_visit cannot use the row.",
    { found: of("full_climbing_date", "full climbing on") },
  ),
  "age-under-17": plainly(
    "is an age at which the growth plate may be injured instead",
    "Check that it is a pulley injury, and check the consent.",
  ),
  "worn-more-than-prescribed": plainly("is more hours a day than prescribed", "Check both numbers.", {
    found: of("hours_per_day", "prescribed:"),
  }),
  "injury-date-too-wide": plainly(
    "is a span of more than a month for the day of the injury",
    "Write the day, week or month of the injury. Without it, the time to return cannot be computed.",
  ),
  "treatment-without-start": plainly(
    "has no start date, so that it is not known when the finger was treated",
    "Write the first day of the treatment, or leave the treatment blank if it was never begun.",
    {
      consequence:
        "The row is used for everybody and by grade. It is left out wherever time is counted from this treatment on, until the day is filled in.",
    },
  ),
  "start-without-treatment": plainly(
    "is the date of a treatment that is not named",
    "Write which treatment it was, or leave the dates blank.",
    { consequence: "The row is used, but this treatment is not known until it is named." },
  ),
  "second-treatment-alone": plainly(
    "is a second treatment where no first one is named",
    "Write the first treatment. If there was none before, write this one as the first.",
    {
      consequence:
        "The row is used, but is not compared by first treatment until it is known which came first.",
    },
  ),
  "distance-without-date": plainly(
    "is a distance without the day of the scan",
    "Write the day of the scan.",
    { consequence: "The row is used, but this reading is left out until the day is filled in." },
  ),
};
