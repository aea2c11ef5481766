/** Mean length of a month, days. */
export const daysOfMonth = 365.25 / 12;
