import { notInFuture } from "./dated.js";
import { injuryDateRules } from "./injury-dates.js";
import { injuryGradeRules } from "./injury-grades.js";
import { injuryPlausibilityRules } from "./injury-plausibility.js";
const treatmentRules = [
    {
        code: "episode-inside-out",
        severity: "set-aside",
        check: ({ start_date, end_date }) => end_date === null || end_date >= start_date
            ? null
            : { column: "end_date", found: end_date, facts: { start_date } },
    },
    ...notInFuture([{ column: "start_date" }, { column: "end_date" }]),
    {
        code: "worn-more-than-prescribed",
        severity: "look-at",
        check: ({ hours_per_day, hours_per_day_worn }) => hours_per_day === null || hours_per_day_worn === null || hours_per_day_worn <= hours_per_day
            ? null
            : { column: "hours_per_day_worn", found: hours_per_day_worn, facts: { hours_per_day } },
    },
];
/** The rules that concern one row, by table; those that set a row aside come first. */
export const rowRules = {
    injuries: [...injuryDateRules, ...injuryGradeRules, ...injuryPlausibilityRules],
    treatments: treatmentRules,
    imaging: notInFuture([{ column: "date" }]),
    visits: notInFuture([{ column: "date" }]),
    sites: [],
};
