import { daysBetween } from "../dates.js";
const slackDays = { day: 0, week: 6, month: 30 };
/** How many days a date may be off: none, six in a week, thirty in a month. Blank is read as day. */
export const slackOf = (precision) => slackDays[precision ?? "day"];
/** The date in a column with its slack; null where the cell is blank. */
export function datedIn(values, { column, precision }) {
    const date = values[column];
    if (date === null)
        return null;
    return { date, slack: precision === undefined ? 0 : slackOf(values[precision]) };
}
/** Whether one date lies before another however inexact the two are. */
export function surelyBefore(one, other) {
    if (one.date >= other.date)
        return false;
    const slack = one.slack + other.slack;
    return slack === 0 || daysBetween(one.date, other.date) > slack;
}
/** One rule for each dated column: not after the day on which the data were closed. */
export const notInFuture = (columns) => columns.map((dated) => ({
    code: "date-in-future",
    severity: "set-aside",
    check: (values, { closedOn }) => {
        const found = closedOn === null ? null : datedIn(values, dated);
        if (found === null || closedOn === null || !surelyBefore({ date: closedOn, slack: 0 }, found))
            return null;
        return { column: dated.column, found: found.date, facts: { closed_on: closedOn } };
    },
}));
