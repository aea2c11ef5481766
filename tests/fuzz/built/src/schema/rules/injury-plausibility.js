import { daysBetween } from "../dates.js";
import { levelRank } from "../levels.js";
const youngestClimber = 3;
const growthPlateAge = 17;
const lateReturn = 26 * 7;
const earlyReturn = 8 * 7;
const daysToFullClimbing = ({ injury_date, full_climbing_date }) => full_climbing_date === null ? null : daysBetween(injury_date, full_climbing_date);
const aboutReturn = ({ injury_date, full_climbing_date }) => ({
    column: "full_climbing_date",
    found: full_climbing_date,
    facts: { injury_date },
});
const onItsScale = (column) => ({
    code: "level-not-on-scale",
    severity: "look-at",
    check: ({ level_scale, [column]: level }) => level_scale === null || level === null || levelRank(level, level_scale) !== null
        ? null
        : { column, found: level, facts: { scale: level_scale } },
});
/** What is possible but unusual in a row of the injuries. */
export const injuryPlausibilityRules = [
    {
        code: "years-climbing-exceed-age",
        severity: "look-at",
        check: ({ years_climbing, age_at_injury }) => years_climbing === null || age_at_injury === null || years_climbing <= age_at_injury - youngestClimber
            ? null
            : { column: "years_climbing", found: years_climbing, facts: { age_at_injury } },
    },
    {
        code: "age-under-17",
        severity: "look-at",
        check: ({ age_at_injury }) => age_at_injury === null || age_at_injury >= growthPlateAge
            ? null
            : { column: "age_at_injury", found: age_at_injury },
    },
    {
        code: "return-unusually-late",
        severity: "look-at",
        check: (values) => {
            const days = daysToFullClimbing(values);
            return values.grade === "1" && days !== null && days > lateReturn ? aboutReturn(values) : null;
        },
    },
    {
        code: "return-unusually-early",
        severity: "look-at",
        check: (values) => {
            const days = daysToFullClimbing(values);
            return values.grade === "4b" && days !== null && days < earlyReturn ? aboutReturn(values) : null;
        },
    },
    {
        code: "first-visit-after-return",
        severity: "look-at",
        check: ({ first_visit_date, full_climbing_date }) => first_visit_date === null || full_climbing_date === null || first_visit_date <= full_climbing_date
            ? null
            : { column: "first_visit_date", found: first_visit_date, facts: { full_climbing_date } },
    },
    onItsScale("level_before"),
    onItsScale("level_after"),
    {
        code: "level-below-previous",
        severity: "look-at",
        check: ({ level_scale, level_before, level_after, previous_level_date }) => {
            if (previous_level_date === null || level_scale === null)
                return null;
            if (level_before === null || level_after === null)
                return null;
            const [before, after] = [levelRank(level_before, level_scale), levelRank(level_after, level_scale)];
            if (before === null || after === null || after >= before)
                return null;
            return { column: "level_after", found: level_after, facts: { level_before } };
        },
    },
];
