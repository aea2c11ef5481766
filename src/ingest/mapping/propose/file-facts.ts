import type { Mapping, Undecided } from "../mapping.js";
import type { FileOrder, OrderEvidence } from "./date-orders.js";
import { looksLikeDayNumber } from "./date-shapes.js";
import { countPassing, type Profile } from "./profile.js";

/** What a file says once for all its dates. */
export interface DateFacts {
  readonly settings: Pick<Mapping, "date_order"> &
    Partial<Pick<Mapping, "two_digit_years_until" | "day_numbers_from">>;
  readonly evidence: Readonly<Record<string, string>>;
  readonly questions: readonly Undecided[];
}

/** Two-digit years up to this one are of this century: nobody in a cohort was hurt before 1970. */
const pivot = 69;

/** Settings for the dates of a file, with what has to be asked. */
export function dateFacts(order: FileOrder, evidence: readonly OrderEvidence[]): DateFacts {
  const dated = evidence.map(({ profile }) => profile);
  const orderQuestion = order.order === null ? [questionAboutOrder(order)] : [];
  const isShort = evidence.some(({ hasTwoDigitYears }) => hasTwoDigitYears);
  const numbers = dated.flatMap(({ distinct }) => [...distinct.keys()]).filter(looksLikeDayNumber);
  return {
    settings: {
      date_order: order.order ?? "year-first",
      ...(isShort ? { two_digit_years_until: pivot } : {}),
    },
    evidence: {
      date_order: order.evidence,
      two_digit_years_until: `two-digit years are read as ${1900 + pivot + 1} to ${2000 + pivot}`,
    },
    questions: [...orderQuestion, ...(numbers.length === 0 ? [] : [questionAboutDayNumbers(numbers[0]!)])],
  };
}

const questionAboutOrder = ({ example }: FileOrder): Undecided => ({
  question:
    "Which comes first in dates that do not put the year first? The dates in the file do not show it.",
  decides: [["date_order"]],
  ...(example === null ? {} : { example }),
  choices: {
    "day-first": "day, then month",
    "month-first": "month, then day",
    "year-first": "not known: raise a query about every such date",
  },
});

const questionAboutDayNumbers = (example: string): Undecided => ({
  question: "Some dates are stored as numbers of days. From which year does the spreadsheet count them?",
  decides: [["day_numbers_from"]],
  example,
  choices: { "1900": "as in nearly all spreadsheets", "1904": "as in some old spreadsheets" },
});

/** Columns that look like dates, whatever they are used for. */
export const datedProfiles = (profiles: readonly Profile[]): readonly Profile[] =>
  profiles.filter(
    (profile) =>
      profile.dates.size > 0 &&
      countPassing(profile, (cell) => profile.dates.has(cell)) >= profile.filled.length * 0.6,
  );
