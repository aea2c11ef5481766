import { alternatives, phrasesOfAll } from "../../languages/alternatives.js";
import { daysOfWeek, weekText } from "../iso-week.js";
import { problem, type Reading } from "../reading.js";
import { type DateForms, twoDigits, yearOf } from "./year-text.js";

const words = alternatives(phrasesOfAll(({ dates }) => dates.calendar_week));
const of = alternatives(phrasesOfAll(({ dates }) => dates.of));
const word = String.raw`(?:${words})\.?`;
const year = String.raw`'?(\d{4}|\d{2})`;
const gap = String.raw`\s*[-/,. ]?\s*(?:(?:${of}) )?`;

const weekThenYear = new RegExp(
  String.raw`^(?:${word}\s*(\d{1,2})|(\d{1,2})\.?\s*${word})${gap}${year}$`,
  "i",
);
const yearThenWeek = new RegExp(String.raw`^(\d{4})${gap}${word}\s*(\d{1,2})$`, "i");

/**
 * A calendar week in words, `KW 12 2024`, `week 12/24`, `2024 W12`, as `2024-W12`; null for any other text.
 * Weeks are counted as ISO 8601 counts them; a week without its year is no week that could be read.
 */
export function writtenWeek(text: string, forms: DateForms): Reading | null {
  const first = yearThenWeek.exec(text);
  const last = weekThenYear.exec(text);
  if (first === null && last === null) return null;
  const [digits, week] =
    first === null ? [last?.[3] ?? "", last?.[1] ?? last?.[2] ?? ""] : [first[1] ?? "", first[2] ?? ""];
  const written = yearOf(digits, forms);
  if (written === null) return twoDigits;
  return daysOfWeek(written, Number(week)) === null
    ? problem("date-impossible")
    : { value: weekText(written, Number(week)) };
}
