import type { Spoiling } from "./spoiling.js";

const has = (text: string): boolean => text !== "";

/** Dates, as people write them. The injury dates of the sheet are day.month.year. */
export const dateSpoilings: readonly Spoiling[] = [
  {
    column: "injury_date",
    write: ({ injury_date }) => shortDate(injury_date),
    wrong: "day and month without leading zeros, year of two digits",
    reader: "accepted",
  },
  {
    column: "injury_date",
    write: ({ injury_date }) => `14/${injury_date.slice(6)}`,
    wrong: "a month and a year only, written so that the first figure is no month",
    reader: "date-unreadable",
  },
  {
    column: "injury_date",
    write: () => "31.02.2023",
    wrong: "a day that does not exist",
    reader: "date-impossible",
  },
  {
    column: "full",
    where: (cells) => has(cells.full),
    write: () => "approx. 8 wks",
    wrong: "a length of time in the place of a date",
    reader: "date-unreadable",
  },
  {
    column: "full",
    where: (cells) => has(cells.full),
    write: () => "~10 weeks",
    wrong: "a length of time in the place of a date",
    reader: "date-unreadable",
  },
  {
    column: "easy",
    where: (cells) => has(cells.easy),
    write: () => "spring, I think",
    wrong: "words in the place of a date",
    reader: "date-unreadable",
  },
  {
    column: "previous",
    where: (cells) => !has(cells.previous),
    write: () => "?",
    wrong: "a question mark for unknown",
    reader: "accepted",
  },
  {
    column: "previous",
    where: (cells) => !has(cells.previous),
    write: () => "-",
    wrong: "a dash for not yet",
    reader: "accepted",
  },
  { column: "last_contact", write: () => "", wrong: "a required date is blank", reader: "value-missing" },
];

/** Numbers, as people write them. */
export const numberSpoilings: readonly Spoiling[] = [
  {
    column: "distance_loaded_first",
    where: (cells) => has(cells.distance_loaded_first),
    write: ({ distance_loaded_first }) => distance_loaded_first.replace(".", ","),
    wrong: "decimal comma",
    reader: "accepted",
  },
  {
    column: "distance_loaded_first",
    where: (cells) => has(cells.distance_loaded_first),
    write: ({ distance_loaded_first }) => `${distance_loaded_first}mm`,
    wrong: "a unit in the cell",
    reader: "accepted",
  },
  {
    column: "distance_loaded_first",
    where: (cells) => has(cells.distance_loaded_first),
    write: () => ">2",
    wrong: "a bound in the place of a number",
    reader: "number-with-bound",
  },
  {
    column: "distance_loaded_first",
    where: (cells) => has(cells.distance_loaded_first),
    write: () => "2-3",
    wrong: "a range in the place of a number",
    reader: "number-range",
  },
  {
    column: "distance_loaded_first",
    where: (cells) => Number(cells.distance_loaded_first) > 1.6,
    write: ({ distance_loaded_first }) => String(Number(distance_loaded_first) * 10).slice(0, 2),
    wrong: "tenths of a millimetre: the decimal point is lost",
    reader: "number-out-of-range",
  },
  {
    column: "distance_loaded_last",
    where: (cells) => has(cells.distance_loaded_last),
    write: ({ distance_loaded_last }) => `${(Number(distance_loaded_last) / 10).toFixed(2)} cm`,
    wrong: "centimetres in a column of millimetres",
    reader: "number-unreadable",
  },
  {
    column: "age",
    write: () => "999",
    wrong: "a code for unknown that looks like a number",
    reader: "number-out-of-range",
  },
  { column: "age", write: () => "n/a", wrong: "words for not recorded", reader: "accepted" },
];

/** Terms, as people write them. */
export const termSpoilings: readonly Spoiling[] = [
  ...(
    [
      ["4b", "IVb", "Roman figures", "accepted"],
      ["4a", "4 a", "a blank within the grade", "accepted"],
      ["3", "Gr.III", "a word before the grade", "accepted"],
      ["4a", "IV", "a or b is missing", "grade-without-letter"],
      ["2", "2-3", "a range of grades", "grade-range"],
    ] as const
  ).map(
    ([grade, written, wrong, reader]): Spoiling => ({
      column: "grade",
      where: (cells) => cells.grade === grade,
      write: () => written,
      wrong,
      reader,
    }),
  ),
  {
    column: "finger",
    where: (cells) => cells.finger === "ring",
    write: ({ hand }) => `${hand === "right" ? "R" : "L"} ring`,
    wrong: "hand and finger in one cell",
    reader: "accepted",
  },
  {
    column: "finger",
    where: (cells) => cells.finger === "ring",
    write: () => "D4",
    wrong: "the finger as a digit code: the ring finger when the thumb is counted",
    reader: "accepted",
  },
  {
    column: "finger",
    where: (cells) => cells.finger === "middle",
    write: () => "3rd finger",
    wrong: "middle or ring finger, depending on whether the thumb is counted",
    reader: "term-unknown",
  },
  {
    column: "hand",
    where: (cells) => cells.hand === "left",
    write: () => "L",
    wrong: "an abbreviation",
    reader: "accepted",
  },
  {
    column: "hand",
    where: (cells) => cells.hand === "right",
    write: () => "right\u00a0",
    wrong: "a no-break space after the word",
    reader: "accepted",
  },
  {
    column: "pulleys",
    where: (cells) => cells.pulleys === "A2|A3",
    write: () => "A2+A3",
    wrong: "a plus sign between the pulleys",
    reader: "accepted",
  },
  {
    column: "treatment",
    where: (cells) => cells.treatment === "tape",
    write: () => "Tape",
    wrong: "a capital letter",
    reader: "accepted",
  },
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
    wrong: "a cell that a spreadsheet takes for a formula",
    reader: "accepted",
  },
  {
    column: "notes",
    write: () => "<b>fine</b><img src=x onerror=alert(1)>",
    wrong: "text that a page could take for HTML",
    reader: "accepted",
  },
  {
    column: "notes",
    write: () => "moved flat\nback in autumn",
    wrong: "a line break in a cell",
    reader: "accepted",
  },
];

/** `03.04.2024` as `3.4.24`. */
const shortDate = (date: string): string =>
  `${Number(date.slice(0, 2))}.${Number(date.slice(3, 5))}.${date.slice(8)}`;
