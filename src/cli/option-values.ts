import { InvalidArgumentError } from "commander";

/** A whole number, as the text of an option. */
export const wholeNumber = (text: string): number => {
  if (!/^\d{1,10}$/.test(text)) throw new InvalidArgumentError("Write a whole number.");
  return Number(text);
};

/** How many people make a cell that is not small. */
export const smallestCell = (text: string): number => {
  const people = wholeNumber(text);
  if (people < 2 || people > 1000) throw new InvalidArgumentError("Write a number from 2 to 1000.");
  return people;
};

/** A number whose range the command itself states. */
export const anyNumber = (text: string): number =>
  /^-?\d{1,10}(?:\.\d{1,10})?$/.test(text) ? Number(text) : wholeNumber(text);

/** Up to three rows, as 3,4. */
export const rowNumbers = (text: string): readonly number[] => {
  const rows = text.split(",").map((row) => wholeNumber(row.trim()));
  if (rows.length > 3 || rows.includes(0)) throw new InvalidArgumentError("Write up to three rows, as 3,4.");
  return rows;
};

/** Width of bins of time. */
export const binDays = (text: string): number => {
  const days = wholeNumber(text);
  if (days < 1 || days > 365) throw new InvalidArgumentError("Write a number of days from 1 to 365.");
  return days;
};
