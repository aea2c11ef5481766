import type { SheetCells, Spoiling } from "./spoiling.js";

const filled =
  (column: keyof SheetCells) =>
  (cells: SheetCells): boolean =>
    cells[column] !== "";
const blank =
  (column: keyof SheetCells) =>
  (cells: SheetCells): boolean =>
    cells[column] === "";

/** `2024-04-03` with its parts in another order: `03.04.2024`. */
const dayFirst = (date: string, mark: string): string => date.split("-").reverse().join(mark);
/** `2024-04-03` as `3.4.24`. */
const shortDate = (date: string): string => dayFirst(date, ".").replaceAll(/\b0/g, "").replace(/\.20/, ".");
/** Days since the end of 1899, as spreadsheets count them. */
const serialOf = (date: string): string => String(Date.parse(date) / 86_400_000 + 25_569);

/** Dates, as people write them. */
export const dateSpoilings: readonly Spoiling[] = [
  {
    column: "injury_date",
    where: ({ injury_date }) => Number(injury_date.slice(8)) <= 12,
    write: ({ injury_date }) => dayFirst(injury_date, "/"),
    wrong: "nobody can tell whether the day or the month comes first",
    reader: "date-day-or-month-first",
  },
  {
    column: "full",
    where: filled("full"),
    write: ({ full }) => dayFirst(full, "."),
    wrong: "day.month.year",
    reader: "date-day-or-month-first",
  },
  {
    column: "injury_date",
    write: ({ injury_date }) => shortDate(injury_date),
    wrong: "a year of two digits",
    reader: "date-two-digit-year",
  },
  {
    column: "last_contact",
    write: ({ last_contact }) => serialOf(last_contact),
    wrong: "the number by which a spreadsheet stores a date",
    reader: "date-serial",
  },
  {
    column: "first_visit",
    write: ({ first_visit }) => `${first_visit} 00:00:00`,
    wrong: "a date with a time of day",
    reader: "date-with-time",
  },
  {
    column: "easy",
    where: filled("easy"),
    write: ({ easy }) => `March ${easy.slice(2, 4)}`,
    wrong: "a month only",
    reader: "date-month-only",
  },
  {
    column: "injury_date",
    write: ({ injury_date }) => `${injury_date.slice(0, 5)}02-31`,
    wrong: "a day that does not exist",
    reader: "date-impossible",
  },
  {
    column: "injury_date",
    write: ({ injury_date }) => `0${injury_date.slice(0, 1)}${injury_date.slice(2)}`,
    wrong: "a typing error in the year",
    reader: "date-year-doubtful",
  },
  ...["approx. 8 wks", "~10 weeks"].map(
    (written): Spoiling => ({
      column: "full",
      where: filled("full"),
      write: () => written,
      wrong: "a length of time instead of a date",
      reader: "date-unreadable",
    }),
  ),
  {
    column: "previous",
    where: blank("previous"),
    write: () => "?",
    wrong: "a question mark: unknown, or not yet?",
    reader: "missing-in-words",
  },
  {
    column: "previous",
    where: blank("previous"),
    write: () => "-",
    wrong: "a dash: unknown, or not yet?",
    reader: "missing-in-words",
  },
  { column: "last_contact", write: () => "", wrong: "a required date is blank", reader: "value-missing" },
];

const distance = (write: (mm: string) => string, told: Pick<Spoiling, "wrong" | "reader">): Spoiling => ({
  column: "distance_loaded_first",
  where: ({ distance_loaded_first }) => Number(distance_loaded_first) > 1.6,
  write: ({ distance_loaded_first }) => write(distance_loaded_first),
  ...told,
});

/** Numbers, as people write them. */
export const numberSpoilings: readonly Spoiling[] = [
  distance((mm) => Number(mm).toFixed(1).replace(".", ","), {
    wrong: "a decimal comma",
    reader: "number-unreadable",
  }),
  distance((mm) => `${mm}mm`, { wrong: "a unit in the cell", reader: "number-with-unit" }),
  distance((mm) => `${(Number(mm) / 10).toFixed(2)} cm`, {
    wrong: "centimetres in a column of millimetres",
    reader: "number-with-unit",
  }),
  distance(() => ">2", { wrong: "a bound instead of a number", reader: "accepted" }),
  distance(() => "2-3", { wrong: "a range instead of a number", reader: "number-range" }),
  distance((mm) => String(Math.round(Number(mm) * 10)), {
    wrong: "tenths of a millimetre: the decimal point is lost",
    reader: "number-out-of-range",
  }),
  {
    column: "age",
    write: () => "999",
    wrong: "a code for unknown that looks like a number",
    reader: "number-out-of-range",
  },
  { column: "age", write: () => "n/a", wrong: "words for not recorded", reader: "missing-in-words" },
];

const term = (column: keyof SheetCells, from: string, to: string) => ({
  column,
  where: (cells: SheetCells): boolean => cells[column] === from,
  write: () => to,
});

/** Terms, as people write them. */
export const termSpoilings: readonly Spoiling[] = [
  { ...term("grade", "4b", "IVb"), wrong: "Roman figures", reader: "accepted" },
  { ...term("grade", "4a", "4 a"), wrong: "a space within the grade", reader: "accepted" },
  { ...term("grade", "3", "Gr.III"), wrong: "a word before the grade", reader: "accepted" },
  { ...term("grade", "4a", "IV"), wrong: "a or b is missing", reader: "grade-without-letter" },
  { ...term("grade", "2", "2-3"), wrong: "a range of grades", reader: "grade-range" },
  { ...term("finger", "ring", "R ring"), wrong: "hand and finger in one cell", reader: "term-unknown" },
  {
    ...term("finger", "ring", "D4"),
    wrong: "a number: the ring finger if the thumb is counted, the little finger if not",
    reader: "finger-by-number",
  },
  {
    ...term("finger", "middle", "3rd finger"),
    wrong: "a number: the middle finger if the thumb is counted, the ring finger if not",
    reader: "finger-by-number",
  },
  { ...term("hand", "left", "L"), wrong: "an abbreviation", reader: "accepted" },
  { ...term("hand", "right", "right\u00a0"), wrong: "a no-break space after the word", reader: "accepted" },
  { ...term("pulleys", "A2|A3", "A2+A3"), wrong: "a plus sign between the pulleys", reader: "accepted" },
  {
    ...term("pulleys", "A2|A3", "A2-A3"),
    wrong: "a dash between the pulleys: from A2 to A3, or both?",
    reader: "list-range",
  },
  { ...term("treatment", "tape", "Tape"), wrong: "a capital letter", reader: "accepted" },
];

/** Free words that must stay words. */
export const noteSpoilings: readonly Spoiling[] = [
  {
    column: "notes",
    write: () => "Rückfall nach Überlastung, Schonung für zwei Wochen",
    wrong: "letters of windows-1252, and a comma",
    reader: "accepted",
  },
  {
    column: "notes",
    write: () => "=SUM(A1:A9)",
    wrong: "a cell that a spreadsheet reads as a formula",
    reader: "accepted",
  },
  {
    column: "notes",
    write: () => "<b>fine</b><img src=x onerror=alert(1)>",
    wrong: "text that a web page could read as HTML",
    reader: "accepted",
  },
  {
    column: "notes",
    write: () => "moved flat\nback in autumn",
    wrong: "a line break in a cell",
    reader: "accepted",
  },
];
