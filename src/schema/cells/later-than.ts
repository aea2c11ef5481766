import type { IsoDate } from "../dates.js";
import { periodOf } from "./period.js";

/** A day with > before it as a pattern, for schemas; whether the day exists is for `laterThan`. */
export const laterPattern = /^>\d{4}-\d{2}-\d{2}$/;

/**
 * The day of a text such as `>2024-05-27`: what it dates came later than that day, if it came at all. Null for any other
 * text.
 */
export function laterThan(text: string): IsoDate | null {
  if (!laterPattern.test(text)) return null;
  const day = periodOf(text.slice(1));
  return day?.form === "day" ? day.first : null;
}
