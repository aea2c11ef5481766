import { z } from "zod";
import { dayProblem, yearsOfDates } from "../cells/day.js";

const hasNoControls = (text: string): boolean => !/\p{Cc}/u.test(text);

/** Words and numbers alike: a grade 3 or a column named 2024 needs no quotation marks. */
export const word = z.union([z.string().min(1), z.number()]).transform(String);

const longestWord = 200;

/** A word of a table that a setting speaks of: a group, a site. The reader of settings takes 2 as the text that it is. */
export const wordOfTable = z
  .string()
  .min(1)
  .max(longestWord)
  .refine(hasNoControls, "a word without invisible characters");

/** A title on one line; the line end behind it that YAML gives a folded text is no part of it. */
export const title = z
  .string()
  .trim()
  .min(1)
  .max(longestWord)
  .refine(hasNoControls, "one line without invisible characters");

const longestPath = 1_000;
/** Of a name in a folder, in bytes: file systems take no more. */
const longestName = 255;

/** A path to a file. */
export const filePath = z
  .string()
  .min(1)
  .refine(
    isFilePath,
    `the name of a file: at most ${longestPath} letters, at most ${longestName} bytes between two slashes, no spaces at either end, no invisible characters, and the name of a file, not of a folder, at the end`,
  );

function isFilePath(path: string): boolean {
  const names = path.split(/[\\/]/);
  const isTooLong = names.some((name) => new TextEncoder().encode(name).length > longestName);
  return (
    path.length <= longestPath &&
    !isTooLong &&
    path.trim() === path &&
    hasNoControls(path) &&
    !["", ".", ".."].includes(names.at(-1)!)
  );
}

/** A day `YYYY-MM-DD` that a date of the tables can be as well. */
export const day = z.iso
  .date()
  .refine(
    (text) => dayProblem(Number(text.slice(0, 4)), Number(text.slice(5, 7)), Number(text.slice(8))) === null,
    `a day as YYYY-MM-DD from ${yearsOfDates.from} to ${yearsOfDates.to}, as the dates of the tables`,
  );
