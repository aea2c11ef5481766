import { isOverYear } from "../../../schema/cells/dates/elapsed-time.js";
import type { Field } from "../../../schema/field.js";
import type { ColumnRule, Undecided } from "../mapping.js";
import type { FileOrder } from "./date-orders.js";
import { looksLikeBoundOfCount, looksLikeCount, looksLikeFraction } from "./date-shapes.js";
import type { Profile } from "./profile.js";
import { takesTimes } from "./takes-times.js";

/** How the times since the injury in a column of dates are read, with the evidence and what has to be asked. */
export interface TimesRead {
  readonly rule: Pick<ColumnRule, "counted" | "fractions">;
  readonly evidence: readonly string[];
  readonly questions: readonly Undecided[];
}

/** What plain numbers count, and whether 5/7 and 3/12 are times, in a column that may be told in times. */
export function timesOf(profile: Profile, field: Field, order: FileOrder): TimesRead {
  if (!takesTimes(field)) return { rule: {}, evidence: [], questions: [] };
  const numbers = firstOf(profile, (cell) => looksLikeCount(cell) || looksLikeBoundOfCount(cell));
  const told = profile.read.counted;
  if (numbers !== null && told !== null)
    return {
      rule: { counted: told },
      evidence: [`the header shows that the numbers are ${told}`],
      questions: [],
    };
  const fractions = fractionsOf(profile, { field, order });
  if (numbers === null) return fractions;
  return {
    ...fractions,
    questions: [questionAboutCount(profile, { field, numbers }), ...fractions.questions],
  };
}

/** The first cell that passes, the most frequent cells first; null where none does. */
const firstOf = ({ distinct, dates }: Profile, test: (cell: string) => boolean): string | null =>
  [...distinct.keys()].find((cell) => !dates.has(cell) && test(cell)) ?? null;

/** Weeks over 52 beside them, and no date that could be written so, show that times are meant. */
function fractionsOf(
  profile: Profile,
  { field, order }: { readonly field: Field; readonly order: FileOrder },
): TimesRead {
  const example = firstOf(profile, looksLikeFraction);
  if (example === null) return { rule: {}, evidence: [], questions: [] };
  const weeks = firstOf(profile, isOverYear);
  if (weeks !== null && order.order === "year-first")
    return {
      rule: { fractions: "times" },
      evidence: [`"${example}" is read as a time like "${weeks}", since all dates put the year first`],
      questions: [],
    };
  return { rule: {}, evidence: [], questions: [questionAboutFractions(profile, { field, example })] };
}

const questionAboutFractions = (
  profile: Profile,
  { field, example }: { readonly field: Field; readonly example: string },
): Undecided => ({
  question: `What do cells such as "${example}" in the column "${profile.name}" mean?`,
  decides: [["columns", field.name, "fractions"]],
  example,
  choices: {
    times: "a time since the injury: over 7 in days, over 12 in months",
    asked: "a date without a year, or not clear: raise a query about each row",
  },
});

const questionAboutCount = (
  profile: Profile,
  { field, numbers }: { readonly field: Field; readonly numbers: string },
): Undecided => ({
  question: `What does a plain number such as "${numbers}" in the column "${profile.name}" count?`,
  decides: [["columns", field.name, "counted"]],
  example: numbers,
  choices: {
    days: "days since the injury",
    weeks: "weeks since the injury",
    months: "months since the injury",
    asked: "none of these, or not clear: raise a query about each row",
  },
});
