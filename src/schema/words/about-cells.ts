import type { CellCode, DataQuery } from "../data-query.js";
import { fact, plainly, type Wording } from "./wording.js";

const writeDate = "Write the day as year-month-day, for example 2024-03-04.";
const unitOf = (query: DataQuery) => (query.facts.unit === undefined ? "" : ` ${fact(query, "unit")}`);

const numberMend: Readonly<Record<string, string>> = {
  "decimal-comma": "Write it with a decimal point: 2.4 rather than 2,4.",
  "leading-point": "Write a digit before the decimal point: 0.24 rather than .24.",
};

/** The words for doubts about one cell. */
export const aboutCells: Record<CellCode, Wording> = {
  "value-missing": {
    found: () => "a blank cell",
    expected: () => "stands where every row needs a value",
    mend: (query) => `Fill the cell, for example: ${fact(query, "example")}.`,
  },
  "missing-in-words": {
    expected: () => "says in words that there is no value",
    mend: (query) =>
      query.facts.blankSays === undefined
        ? "Leave the cell blank where nothing is known."
        : `Leave the cell blank if that is what it means: a blank here says "${fact(query, "blankSays")}". Write what is known otherwise.`,
  },
  "date-unreadable": plainly(
    "is not a date this toolkit can read",
    `${writeDate} Where only a week or month is known, write a day in it and say so in the precision column.`,
  ),
  "date-day-or-month-first": plainly(
    "does not put the year first, and day and month could be meant either way round",
    `${writeDate} Or say once for the whole study which comes first, under "data" in the study file: date_order: day-first.`,
  ),
  "date-two-digit-year": plainly("has a year of two digits", `${writeDate} The year has four digits.`),
  "date-serial": plainly(
    "is the number by which a spreadsheet stores a day, not a date",
    `Format the column as a date before exporting. ${writeDate}`,
  ),
  "date-month-only": {
    expected: () => "does not say the day",
    mend: (query) =>
      query.facts.form === "period"
        ? `${writeDate} Where only the month is known, write year and month in figures, for example 2024-03.`
        : `${writeDate} Where only the month is known, write a day in the middle of it and "month" in the precision column.`,
  },
  "date-with-time": plainly("has more than a date in it", `${writeDate} Leave the time out.`),
  "date-impossible": plainly("is not a day of the calendar", `Check day and month. ${writeDate}`),
  "date-year-doubtful": {
    expected: (query) => `has a year outside ${fact(query, "from")} to ${fact(query, "to")}`,
    mend: () => "Check the year; it has four digits.",
  },
  "span-inside-out": plainly(
    "is a span of days that ends before it begins",
    "Write the first day, a slash and the last day, for example 2024-03-01/2024-03-10.",
  ),
  "number-unreadable": {
    expected: () => "is not a plain number",
    mend: (query) =>
      numberMend[fact(query, "form")] ??
      "Write digits only, with a decimal point where needed, for example 2.4.",
  },
  "number-with-unit": {
    expected: () => "has more than a number in it",
    mend: (query) => `Write the number alone${query.facts.unit === undefined ? "" : `, in${unitOf(query)}`}.`,
  },
  "number-with-bound": {
    expected: () => "says more or less than a number, not the number",
    mend: (query) => {
      if (query.facts.form === "sign")
        return "Write the number alone, or with > or < before it, for example >2.";
      return query.column === "distance_mm"
        ? 'Write the number alone, and "above" or "below" in the column "bound".'
        : "Write the number alone, or leave the cell blank where it is not known.";
    },
  },
  "number-range": plainly(
    "holds more than one number",
    "Write one number; put a second reading in a row of its own.",
  ),
  "number-not-whole": plainly("is not a whole number", "Write a whole number."),
  "number-out-of-range": {
    expected: (query) =>
      `lies outside ${fact(query, "minimum")} to ${fact(query, "maximum")}${unitOf(query)}`,
    mend: (query) =>
      `Check the value${query.facts.unit === undefined ? "" : " and its unit"}; leave the cell blank where it is not known.`,
  },
  "term-unknown": {
    expected: () => "is not one of the words for this column",
    mend: (query) =>
      `${query.facts.near === undefined ? "" : `Did you mean ${fact(query, "near")}? `}Write one of: ${fact(query, "terms")}.`,
  },
  "finger-by-number": plainly(
    "does not say which finger: sites count with or without the thumb",
    "Write thumb, index, middle, ring or little.",
  ),
  "grade-without-letter": plainly(
    "does not say whether 4a or 4b",
    "Write 4a (several pulleys, no visible bowstringing) or 4b (visible bowstringing, or complications); 4_undivided where it was never recorded.",
  ),
  "grade-range": plainly(
    "names more than one grade",
    "Write the one grade that was decided on, or unknown; keep the range in grade_as_written.",
  ),
  "list-range": plainly(
    "could mean two entries or everything between them",
    "Write every entry, separated by |, for example A2|A3|A4.",
  ),
  "text-too-long": {
    expected: (query) => `is longer than ${fact(query, "longest")} characters`,
    mend: () => "Write a short code.",
  },
  "identifier-hidden": plainly(
    "holds a line break or a character that cannot be seen, so that it may look like another name and not be it",
    "Type the name anew, with letters, digits, spaces and hyphens, in every row and table that has it.",
  ),
  "value-not-accepted": {
    expected: () => "is not accepted in this column",
    mend: (query) => `Write a value like the example: ${fact(query, "example")}.`,
  },
};
