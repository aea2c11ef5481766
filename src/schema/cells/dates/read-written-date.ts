import { alternatives, phrasesOfAll } from "../../languages/alternatives.js";
import type { DateWords } from "../../languages/languages.js";
import { plainLetters } from "../../plain-letters.js";
import { dayReading } from "../day.js";
import { periodOf } from "../period.js";
import { type CellReader, problem, type Reading } from "../reading.js";
import { serialDay } from "../serial-day.js";
import { monthNamed } from "./month-names.js";
import { writtenWeek } from "./written-week.js";
import { type DateForms, twoDigits, yearOf } from "./year-text.js";

const wordsFor = (kind: (dates: DateWords) => string): string =>
  alternatives(phrasesOfAll(({ dates }) => kind(dates)));

const of = `(?:${wordsFor(({ of: words }) => words)})`;
const ordinals = wordsFor(({ ordinals: words }) => words);
const separator = String.raw`\s?[-/. ]\s?`;
const afterYear = String.raw`(?:\s?(?:${wordsFor(({ year: words }) => words)})\.?)?`;
const year = String.raw`'?(\d{4}|\d{2})`;
const word = String.raw`(\p{L}{3,12}\.?)`;
const form = (pattern: string) => new RegExp(`^${pattern}${afterYear}$`, "u");

const time = new RegExp(
  String.raw`(?<=\d)(?:t|,?\s+(?:(?:${wordsFor(({ at }) => at)})\.? )?)\d{1,2}[:.h]\d{2}(?::\d{2}(?:\.\d+)?)?\s*(?:am|pm|z|${wordsFor(({ oclock }) => oclock)}|[+-]\d{2}:?\d{2})?$`,
);
const weekday = new RegExp(
  String.raw`^(?:${wordsFor(({ weekdays }) => Object.values(weekdays).join(", "))})\.?,?\s+(?=\d)`,
);
/** Words for a part of a month, or for about: what follows is known to the month. */
const partOfMonth = new RegExp(
  String.raw`^(?:~\s*|(?:${wordsFor(({ part_of_month }) => part_of_month)})(?:\.\s*|[\s-]+))(?:${of} |d')?(?=\p{L})`,
  "u",
);

type Match = readonly string[];
type Form = readonly [RegExp, (match: Match, forms: DateForms) => Reading | null];

const byForm: readonly Form[] = [
  [form(String.raw`(\d{4})${separator}(\d{1,2})${separator}(\d{1,2})`), ([, y, m, d]) => day(y, m, d)],
  [form(String.raw`(\d{1,2})(${separator})(\d{1,2})${separator}${year}`), yearLast],
  [/^(\d{4})(\d{2})(\d{2})$/, eightDigits],
  [
    form(String.raw`(\d{1,2})(?:\.|º|°|${ordinals})?[-/ ]?\s?(?:${of} )?${word}[-/, ]?\s?(?:${of} )?${year}`),
    dayNameYear,
  ],
  [form(String.raw`${word}[-/ ]?\s?(\d{1,2})(?:${ordinals})?,?[-/ ]\s?${year}`), nameDayYear],
  [form(String.raw`${word}[-/, ]?\s?(?:${of} )?('?)(\d{4}|\d{2})`), nameYear],
  [form(String.raw`(\d{1,2})${separator}(\d{4})`), ([, m, y]) => month(Number(y), Number(m))],
  [form(String.raw`(\d{4})${separator}(\d{1,2})`), ([, y, m]) => month(Number(y), Number(m))],
  [/^(\d{5})(?:[.,]\d+)?$/, ([, number], { epoch }) => dayOfSerial(Number(number), epoch)],
  [/^\d{4}$/, () => problem("date-month-only")],
];

/** Longer cells hold more than a date. */
const longest = 60;

/**
 * Reads a date however it is written into canonical text (`periodOf`): days in figures in the stated order, with years
 * of two digits and day numbers as stated; months by name in any of the languages; months and calendar weeks alone; two days
 * with a dash or word between as a span. A time of day is left out. `early`, `mid`, `about` a month is the month.
 *
 * What could mean two things is a query, never a guess: `03/04/2024` where the order is undecided, `March 24`.
 *
 * @example
 * writtenDateReader({ order: "day-first", twoDigitYearsUntil: 40, epoch: null })("4. März 24") // => { value: "2024-03-04" }
 */
export function writtenDateReader(forms: DateForms): CellReader {
  return (cell) => {
    if (cell.length > longest) return problem("date-unreadable");
    const text = cell.trim().replaceAll(/\s+/g, " ");
    if (periodOf(text) !== null) return { value: text };
    const plain = plainLetters(text);
    return spanOf(plain, forms) ?? oneDate(plain, forms);
  };
}

function oneDate(written: string, forms: DateForms): Reading {
  const text = written.replace(time, "").replace(weekday, "");
  const week = writtenWeek(text, forms);
  if (week !== null) return week;
  const month = text.replace(partOfMonth, "");
  for (const [pattern, read] of byForm) {
    const match = pattern.exec(month);
    const reading = match === null ? null : read(match, forms);
    if (reading === null) continue;
    // only a month is as vague as those words
    return month === text || isMonth(reading) ? reading : problem("date-unreadable");
  }
  return problem("date-unreadable");
}

const isMonth = (reading: Reading): boolean =>
  "problem" in reading || (typeof reading.value === "string" && reading.value.length === 7);

const between = new RegExp(
  String.raw`^(?:(?:${wordsFor((words) => words.between)}) )?(.+?)\s?(?:\s(?:-|${wordsFor(({ to }) => to)}|${wordsFor(({ and }) => and)})\s|–|—)\s?(.+)$`,
  "u",
);

/** Two days as a span; null for any other text. */
function spanOf(text: string, forms: DateForms): Reading | null {
  const parts = between.exec(text);
  if (parts === null) return null;
  const [first, last] = [oneDate(parts[1]!, forms), oneDate(parts[2]!, forms)];
  if ("problem" in first || "problem" in last) return null;
  const [from, to] = [periodOf(String(first.value)), periodOf(String(last.value))];
  if (from === null || to === null) return null;
  return from.first > to.last ? problem("span-inside-out") : { value: `${from.first}/${to.last}` };
}

const day = (y = "", m = "", d = ""): Reading => dayReading(Number(y), Number(m), Number(d));

function yearLast(match: Match, forms: DateForms): Reading | null {
  const [, first = "", , second = "", digits = ""] = match;
  const written = yearOf(digits, forms);
  if (written === null) return twoDigits;
  const dayFirst = dayReading(written, Number(second), Number(first));
  const monthFirst = dayReading(written, Number(first), Number(second));
  if (forms.order === "day-first") return dayFirst;
  if (forms.order === "month-first") return monthFirst;
  if ("value" in dayFirst && "value" in monthFirst && dayFirst.value === monthFirst.value) return dayFirst;
  return problem("date-day-or-month-first");
}

/** `20240304`, or `04032024` where the order is known: no text is both. */
function eightDigits([text = ""]: Match, { order }: DateForms): Reading {
  const reading = day(text.slice(0, 4), text.slice(4, 6), text.slice(6));
  if ("value" in reading || order === "undecided") return reading;
  const [first, second, y] = [text.slice(0, 2), text.slice(2, 4), text.slice(4)];
  return order === "day-first" ? day(y, second, first) : day(y, first, second);
}

function named(d: string, name: string, digits: string, forms: DateForms): Reading | null {
  const number = monthNamed(name);
  if (number === null) return null;
  const written = yearOf(digits, forms);
  return written === null ? twoDigits : dayReading(written, number, Number(d));
}

function dayNameYear([, d = "", name = "", digits = ""]: Match, forms: DateForms): Reading | null {
  return named(d, name, digits, forms);
}

function nameDayYear([, name = "", d = "", digits = ""]: Match, forms: DateForms): Reading | null {
  return named(d, name, digits, forms);
}

const longestMonth = 31;

/** `March 24` may be the 24th: two digits are a year only with an apostrophe or beyond 31. */
function nameYear([, name = "", apostrophe = "", digits = ""]: Match, forms: DateForms): Reading | null {
  const number = monthNamed(name);
  if (number === null) return null;
  const mayBeDay =
    digits.length === 2 && apostrophe === "" && digits !== "00" && Number(digits) <= longestMonth;
  if (mayBeDay) return problem("date-month-only");
  const written = yearOf(digits, forms);
  return written === null ? twoDigits : month(written, number);
}

function month(y: number, m: number): Reading {
  const reading = dayReading(y, m, 1);
  return "problem" in reading ? reading : { value: String(reading.value).slice(0, 7) };
}

function dayOfSerial(serial: number, epoch: DateForms["epoch"]): Reading {
  if (epoch === null) return problem("date-serial");
  const [y, m, d] = (serialDay(serial, epoch) ?? "").split("-");
  return day(y, m, d);
}
