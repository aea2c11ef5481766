import { labelOf } from "../labels.js";
import { fact, foundWith, plainly } from "./wording.js";
const injuredOn = foundWith((query) => `injury on ${fact(query, "injury_date")}`);
const of = (name, said) => foundWith((query) => `${said} ${fact(query, name)}`);
const checkGrade = "Check the grade, the pulleys and their extents (the meaning of the grades is common practice).";
/** The words for doubts about a row against itself. */
export const aboutRows = {
    "extents-not-matching-pulleys": {
        found: foundWith((query) => `pulleys: ${fact(query, "pulleys")}`),
        expected: () => "does not give one extent for each pulley",
        mend: () => "Write as many extents as pulleys, in the same order, separated by |.",
        consequence: "The row is used; the checks of grade against extent leave it out until then.",
    },
    "pulley-twice": plainly("names a pulley twice", "Write each injured pulley once."),
    "event-before-injury": plainly("lies before the injury", "Check this date and the date of the injury.", {
        found: injuredOn,
    }),
    "event-after-last-contact": plainly("lies after the last contact", "Check the date, or move the last contact to the last day on which the person's state was known.", { found: of("last_contact_date", "last contact on") }),
    "date-in-future": plainly("lies after the day on which the data were closed", "Check the date.", {
        found: of("closed_on", "closed on"),
    }),
    "milestones-out-of-order": {
        found: foundWith((query) => `${labelOf(fact(query, "earlier"))} on ${fact(query, "earlier_date")}`),
        expected: (query) => `puts ${labelOf(fact(query, "later"))} before ${labelOf(fact(query, "earlier"))}, which is expected first`,
        mend: () => "Check both dates, or say in their precision columns how exactly they are known.",
    },
    "interval-inside-out": {
        found: foundWith((query) => `${fact(query, "other_column")}: ${fact(query, "other_date")}`),
        expected: (query) => `does not fit ${fact(query, "other_column")}: not before, date and not after must follow each other`,
        mend: () => "Check the three dates of this milestone.",
    },
    "interval-over-26-weeks": plainly("ends an interval of more than 26 weeks in which the milestone was reached", "Look for a visit in between that narrows it.", { found: of("not_before", "not before") }),
    "episode-inside-out": plainly("lies before the start of the same treatment", "Check start and end.", {
        found: of("start_date", "start on"),
    }),
    "milestone-after-giving-up": plainly("lies after climbing was given up", "Check both dates; leave the day of giving up blank if climbing was taken up again.", { found: of("gave_up_date", "given up on") }),
    "grade-3-without-complete-a2": plainly("is grade 3 without a complete rupture of A2", checkGrade),
    "grade-3-with-second-complete": plainly("is grade 3 with a second pulley completely ruptured", checkGrade),
    "grade-2-with-complete-a2": plainly("is grade 2 with a complete rupture of A2", checkGrade),
    "grade-1-with-tear": plainly("is grade 1, a strain, with a partial or complete rupture", checkGrade),
    "grade-4a-visible-bowstringing": plainly("is grade 4a with visible bowstringing, which is usually 4b", checkGrade),
    "grade-4b-without-bowstringing": plainly("is grade 4b with several pulleys and no visible bowstringing, which is usually 4a", checkGrade),
    "thumb-with-grade": plainly("is a finger to which this system of pulleys and grades is not made", "Check the finger."),
    "minor-pulley-alone": plainly("is a grade above 1 in which neither A2, A3 nor A4 is injured", "Check the pulleys and the grade."),
    "years-climbing-exceed-age": plainly("would mean that climbing began before the age of three", "Check the years of climbing and the age.", { found: of("age_at_injury", "age") }),
    "level-not-on-scale": {
        expected: (query) => `is not a level of the scale ${fact(query, "scale")}`,
        mend: () => "Check the scale and the level; write one level, best of the period.",
    },
    "level-below-previous": plainly("is below the level of before, yet the previous level has a date", "Check the levels and the date of the previous level.", { found: of("level_before", "before") }),
    "return-unusually-late": plainly("is a return more than 26 weeks after an injury of grade 1", "Check the date and the grade.", { found: injuredOn }),
    "return-unusually-early": plainly("is a return less than 8 weeks after an injury of grade 4b", "Check the date and the grade.", { found: injuredOn }),
    "first-visit-after-return": plainly("is a first visit after unrestricted climbing, so that the row was made looking back", "Nothing to do if that is so; with delayed entry the row cannot be used.", { found: of("full_climbing_date", "full climbing on") }),
    "age-under-17": plainly("is an age at which the growth plate may be what is injured", "Check that it is a pulley injury, and the consent."),
    "worn-more-than-prescribed": plainly("is more hours a day than were prescribed", "Check both numbers.", {
        found: of("hours_per_day", "prescribed:"),
    }),
    "injury-date-too-wide": plainly("is a span of more than a month in which the injury happened", "Write the day, week or month of the injury; without it no time to return can be told."),
    "treatment-without-start": plainly("has no start, so that what was treated when cannot be told", "Write the first day of the treatment, or leave the treatment blank if it was never begun."),
    "start-without-treatment": plainly("is a date of a treatment that is not named", "Write which treatment it was, or leave its dates blank."),
    "distance-without-date": plainly("is a distance without the day of the scan", "Write the day of the scan.", { consequence: "The row is used; this reading is left out until then." }),
};
