import { plainNumber, rounded } from "./numbers.js";

/** "13 weeks", "1 week", "6.5 weeks". */
export const weeks = (value: number): string => `${plainNumber(value)} ${value === 1 ? "week" : "weeks"}`;

/** A time in days as "13.4 weeks (94 days)", with a remark in the brackets if there is one; below two weeks in days alone. */
export function days(value: number, remark = ""): string {
  const whole = rounded(value, { decimals: 0 });
  const inDays = `${whole} ${whole === "1" ? "day" : "days"}`;
  const after = remark === "" ? "" : `, ${remark}`;
  if (Math.abs(value) < 14) return remark === "" ? inDays : `${inDays} (${remark})`;
  return `${plainNumber(value / 7, 1)} weeks (${inDays}${after})`;
}

/** A day as the week it ends, where it is a whole number of weeks: "13 weeks"; else "day 94". */
export const byDay = (day: number): string =>
  day % 7 === 0 && day > 0 ? weeks(day / 7) : `day ${plainNumber(day)}`;
