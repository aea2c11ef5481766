import { dateOfDay, dayNumber } from "../../dates.js";
import { alternatives, phrasesOfAll } from "../../languages/alternatives.js";
import { languages, phrasesOf } from "../../languages/languages.js";
import { plainLetters } from "../../plain-letters.js";
import { periodOf } from "../period.js";
import { problem, type Reading } from "../reading.js";

/** A time since the injury, in days: from the least to the most it may be. */
export interface ElapsedDays {
  readonly least: number;
  readonly most: number;
}

type Unit = "day" | "week" | "month";

const { about, later, to, more, less } = {
  more: alternatives(phrasesOfAll(({ dates }) => dates.more_than)),
  less: alternatives(phrasesOfAll(({ dates }) => dates.less_than)),
  about: alternatives(phrasesOfAll(({ dates }) => dates.about)),
  later: alternatives(phrasesOfAll(({ dates }) => dates.later)),
  to: alternatives(phrasesOfAll(({ dates }) => dates.to)),
};
const units: ReadonlyMap<string, Unit> = new Map(
  languages.flatMap(({ dates: { elapsed } }) => [
    ...phrasesOf(elapsed.days).map((word) => [word, "day"] as const),
    ...phrasesOf(elapsed.weeks).map((word) => [word, "week"] as const),
    ...phrasesOf(elapsed.months).map((word) => [word, "month"] as const),
  ]),
);
const number = String.raw`(\d{1,3}(?:[.,]\d)?)`;
const written = new RegExp(
  String.raw`^(?:(?:(?:${about})\.?|~|≈)\s*)*${number}(?:\s*(?:-|–|\b(?:${to})\b)\s*${number})?\s*(${alternatives([...units.keys()])})\.?(?:\s+(?:${later}|p\.?i\.?).*)?$`,
  "u",
);

/** As prescriptions write it: weeks over 52. Over 7 and 12 it may be a date too, see `inWordsOfTime`. */
const overYear = /^(.*?)(\d{1,2}(?:\s*[-–]\s*\d{1,2})?)\s?\/\s?52$/;
const overAny = /^(.*?)(\d{1,2}(?:\s*[-–]\s*\d{1,2})?)\s?\/\s?(7|12)$/;

/** `3/12` as three months and `5/7` as five days: only where a column holds times, since elsewhere it may be a date. */
export const inWordsOfTime = (cell: string): string =>
  cell.replace(
    overAny,
    (_, before: string, count: string, of: string) => `${before}${count} ${of === "7" ? "days" : "months"}`,
  );

const days: Readonly<Record<Unit, number>> = { day: 1, week: 7, month: 30.4375 };
/** What is told in weeks is known to the week, in months to the month: three days, fifteen days either side. */
const eitherSide: Readonly<Record<Unit, number>> = { day: 0, week: 3, month: 15 };

/** Whether a cell tells weeks over 52, which nothing else looks like. */
export const isOverYear = (cell: string): boolean => overYear.test(cell);

/** Longer cells hold more than a time. */
const longest = 60;

/**
 * A time in words, `approx. 8 wks`, `3 Monate`, `8-10 weeks`, `6/52`, as days: what is told in weeks is taken as known to the
 * week, in months to the month. Null for any other text. The width is common practice, no source.
 *
 * @example
 * elapsedDays("8 wks") // => { least: 53, most: 59 }
 */
export function elapsedDays(cell: string): ElapsedDays | null {
  const told = timeIn(cell);
  if (told === null) return null;
  const least = Math.floor(told.from) - eitherSide[told.unit];
  const most = Math.ceil(told.until) + eitherSide[told.unit];
  return most < least ? null : { least: Math.max(0, least), most };
}

/** A time in words as it is written, in days that need not be whole. */
function timeIn(cell: string): { readonly from: number; readonly until: number; readonly unit: Unit } | null {
  if (cell.length > longest) return null;
  const [, from, until, name] = written.exec(plainLetters(cell.trim()).replace(overYear, "$1$2 weeks")) ?? [];
  const unit = units.get(name ?? "");
  if (from === undefined || unit === undefined) return null;
  const inDays = (count: string) => Number(count.replace(",", ".")) * days[unit];
  return { from: inDays(from), until: inDays(until ?? from), unit };
}

/** A time or day that something came later or sooner than. */
export interface TimeBound {
  readonly side: "later" | "sooner";
  /** Whether the time itself may be the right one: `>=`, "12 weeks or more". */
  readonly mayBeIt: boolean;
  /** What follows the sign or the words. */
  readonly rest: string;
}

const bounded = new RegExp(String.raw`^(?:(>=|≥)|(>)|(<=|≤)|(<)|(${more})\s|(${less})\s)\s*(\S.*)$`, "u");
const orMore = /^(\d[^+]*?)\s*\+\s*(\D*)$/;

/**
 * Takes a bound apart: `>12`, `more than 12 weeks`, `12+`, `< 6 Wo`; null for any other text.
 *
 * @example
 * timeBound("> 12 wks") // => { side: "later", mayBeIt: false, rest: "12 wks" }
 */
export function timeBound(cell: string): TimeBound | null {
  if (cell.length > longest) return null;
  const text = plainLetters(cell.trim());
  const [, count, unit] = orMore.exec(text) ?? [];
  if (count !== undefined) return { side: "later", mayBeIt: true, rest: `${count} ${unit}`.trim() };
  const [, atLeast, above, atMost, , later, , rest] = bounded.exec(text) ?? [];
  if (rest === undefined) return null;
  const isLater = (atLeast ?? above ?? later) !== undefined;
  return { side: isLater ? "later" : "sooner", mayBeIt: (atLeast ?? atMost) !== undefined, rest };
}

/**
 * A bound of the time since the injury in canonical text: a day that it came later than, or the span of days from the
 * injury to the last on which it can have come. The time itself is taken as it is written.
 *
 * @param injury the day of the injury in canonical text, however exactly it is known
 */
export function boundAfter(injury: string, { side, mayBeIt, rest }: TimeBound): Reading {
  const [start, told] = [periodOf(injury), timeIn(rest)];
  if (start === null || told === null || told.from !== told.until) return problem("date-unreadable");
  if (side === "later") {
    const day = dayNumber(start.first) + Math.floor(told.from) - (mayBeIt ? 1 : 0);
    return { value: `>${dateOfDay(day)}` };
  }
  const last = dayNumber(start.last) + Math.ceil(told.from) - (mayBeIt ? 0 : 1);
  if (last < dayNumber(start.first)) return problem("date-unreadable");
  const day = dateOfDay(last);
  return { value: day === start.first ? day : `${start.first}/${day}` };
}

/**
 * A time since the injury as the span of days in which it ended, in canonical text; a query where the text is no such
 * time or the injury has no period.
 *
 * @param injury the day of the injury in canonical text, however exactly it is known
 */
export function periodAfter(injury: string, cell: string): Reading {
  const [start, elapsed] = [periodOf(injury), elapsedDays(cell)];
  if (start === null || elapsed === null) return problem("date-unreadable");
  const first = dateOfDay(dayNumber(start.first) + elapsed.least);
  const last = dateOfDay(dayNumber(start.last) + elapsed.most);
  return { value: first === last ? first : `${first}/${last}` };
}
