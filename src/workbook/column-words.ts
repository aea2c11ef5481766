import { type Field, unitInWords } from "../schema/index.js";

/** The facts about a column in words, in reading order: what it contains, what may stand there, an example. */
export function columnWords(field: Field): readonly string[] {
  const { description, required, terms, example, blankSays } = field;
  return [
    `${description}.`,
    ...(required ? ["This column must be filled in."] : []),
    ...(blankSays === undefined ? [] : [`A blank cell says: ${blankSays}.`]),
    ...rangeWords(field),
    ...(terms === undefined ? [] : [`Words: ${terms.join(", ")}.`]),
    ...(field.kind === "date" ? [dayOnly] : []),
    ...(example === "" ? [] : [`Example: ${example}`]),
  ];
}

/** A spreadsheet makes a day out of a month that is typed into a date cell, which would be more than is known. */
export const dayOnly =
  "Only a whole day: a spreadsheet turns a month typed here into the first of that month.";

/** What a cell may hold, as one expects it to be said beside the cell; null where any text may stand. */
export function expectation(field: Field): string | null {
  const inRange = rangeWords(field)[0] ?? "A number.";
  switch (field.kind) {
    case "date":
      return "A day, as year-month-day: 2024-03-04.";
    case "period":
      return `A day (2024-03-04), a month (2024-03), a calendar week (2024-W10) or a span of days (2024-03-01/2024-03-10)${field.required ? "" : ", or >2024-05-27 if it was later than that day"}.`;
    case "number":
      return inRange;
    case "integer":
      return `${inRange} A whole number.`;
    case "bounded":
      return `${inRange} With > or < before it if it is a bound.`;
    case "choice":
      return "One of the words of the list.";
    case "list":
      return "One of the words of the list, or several with | between them.";
    case "identifier":
    case "text":
      return null;
  }
}

function rangeWords({ minimum, maximum, unit }: Field): readonly string[] {
  if (minimum === undefined || maximum === undefined) return [];
  return [`From ${minimum} to ${maximum}${unit === undefined ? "" : ` ${unitInWords(unit)}`}.`];
}
