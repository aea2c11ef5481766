import type { CellCode, DataQuery } from "../data-query.js";
import { unitInWords } from "../unit-words.js";
import { fact, plainly, type Wording } from "./wording.js";

const writeDate = "Write the date as year-month-day, for example 2024-03-04.";
const ifInexact = ({ facts }: DataQuery): string =>
  facts.form === "period"
    ? "If only the month or the calendar week is known, write 2024-03 or 2024-W10."
    : 'If only the week or the month is known, write a day in the middle of it, and "week" or "month" in the precision column if there is one.';
const unitOf = (query: DataQuery) =>
  query.facts.unit === undefined ? "" : ` ${unitInWords(fact(query, "unit"))}`;

const numberCorrections: Readonly<Record<string, string>> = {
  "decimal-comma": "Write it with a decimal point: 2.4 rather than 2,4.",
  "leading-point": "Write a digit before the decimal point: 0.24 rather than .24.",
};

/** The words for queries about one cell. */
export const aboutCells: Record<CellCode, Wording> = {
  "value-missing": {
    found: () => "the cell",
    expected: () => "is blank, but every row needs a value in this column",
    correction: (query) => `Fill in the cell, for example: ${fact(query, "example")}.`,
  },
  "missing-in-words": {
    expected: () => "says that the value is missing, but a missing value is written as a blank cell",
    correction: (query) =>
      query.facts.blankSays === undefined
        ? "Leave the cell blank if the value is not known."
        : `A blank cell in this column means "${fact(query, "blankSays")}". Leave the cell blank if that is right; otherwise write what is known.`,
  },
  "date-unreadable": {
    expected: () => "is not a date that can be read",
    correction: (query) => `${writeDate} ${ifInexact(query)}`,
  },
  "time-without-unit": {
    expected: () => "does not say whether it is a time since the injury, and in what unit",
    correction: (query) =>
      `If it is a time, say so for the whole column in the mapping: counted: weeks (or days, months) for plain numbers, fractions: times for 5/7 and 3/12. ${writeDate} ${ifInexact(query)}`,
  },
  "date-day-or-month-first": plainly(
    "does not put the year first, so that it is not clear which number is the day and which the month",
    `${writeDate} Or state the order once for the whole study, under "data" in the study file, for example date_order: day-first.`,
  ),
  "date-two-digit-year": plainly("has a two-digit year", `${writeDate} Write the year with four digits.`),
  "date-serial": plainly(
    "is the number by which a spreadsheet stores a date, not a date",
    `Format the column as a date in the spreadsheet and export it again. ${writeDate}`,
  ),
  "date-month-only": {
    expected: () => "does not give the day",
    correction: (query) => `${writeDate} ${ifInexact(query)}`,
  },
  "date-with-time": plainly("contains more than a date", `${writeDate} Leave out the time of day.`),
  "date-impossible": plainly("is a date that does not exist", `Check the day and the month. ${writeDate}`),
  "date-year-doubtful": {
    expected: (query) => `has a year outside the range ${fact(query, "from")} to ${fact(query, "to")}`,
    correction: () => "Check the year, and write it with four digits.",
  },
  "span-inside-out": plainly(
    "is a span of days that ends before it begins",
    "Write the first day, a slash and the last day, for example 2024-03-01/2024-03-10.",
  ),
  "number-unreadable": {
    expected: () => "is not a plain number",
    correction: (query) =>
      numberCorrections[fact(query, "form")] ??
      "Write digits only, with a decimal point if needed, for example 2.4.",
  },
  "number-with-unit": {
    expected: () => "contains more than a number",
    correction: (query) =>
      `Write the number alone${query.facts.unit === undefined ? "" : `, in${unitOf(query)}`}.`,
  },
  "number-with-bound": {
    expected: () => "is a bound (more or less than a number), not a number",
    correction: (query) => {
      if (query.facts.form === "sign")
        return "Write the number alone, or with > or < before it, for example >2.";
      return query.column === "distance_mm"
        ? 'Write the number alone, and "above" or "below" in the column "bound".'
        : "Write the number alone, or leave the cell blank if it is not known.";
    },
  },
  "number-range": plainly(
    "contains more than one number",
    "Write one number. A second reading belongs in a row of its own in the imaging table.",
  ),
  "number-not-whole": plainly("is not a whole number", "Write a whole number."),
  "number-out-of-range": {
    expected: (query) =>
      `is outside the range ${fact(query, "minimum")} to ${fact(query, "maximum")}${unitOf(query)}`,
    correction: (query) =>
      `Check the value${query.facts.unit === undefined ? "" : " and its unit"}. Leave the cell blank if the value is not known.`,
  },
  "term-unknown": {
    expected: () => "is not one of the words allowed in this column",
    correction: (query) =>
      `${query.facts.near === undefined ? "" : `Did you mean ${fact(query, "near")}? `}Write one of: ${fact(query, "terms")}.`,
  },
  "finger-by-number": plainly(
    "does not say which finger is meant: some sites count the thumb, others do not",
    "Write thumb, index, middle, ring or little.",
  ),
  "grade-without-letter": plainly(
    "does not say whether 4a or 4b is meant",
    "Write 4a (several pulleys, no visible bowstringing) or 4b (visible bowstringing, or complications). Write 4_undivided if it was never recorded.",
  ),
  "grade-range": plainly(
    "names more than one grade",
    'Write the one grade that was decided on, or "unknown". The range can be kept in the notes.',
  ),
  "list-range": plainly(
    "could mean these two entries, or also everything between them",
    "Write every entry, separated by |, for example A2|A3|A4.",
  ),
  "text-too-long": {
    expected: (query) => `is longer than ${fact(query, "longest")} characters`,
    correction: () => "Write a short code.",
  },
  "identifier-hidden": plainly(
    "contains a line break or an invisible character, so that it can look like another name without being the same",
    "Type the name again, with letters, digits, spaces and hyphens only, in every row and table that contains it.",
  ),
  "value-not-accepted": {
    expected: () => "is not accepted in this column",
    correction: (query) => `Write a value like the example: ${fact(query, "example")}.`,
  },
};
