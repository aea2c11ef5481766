import { type DateWords, languages, phrasesOf } from "../../languages/languages.js";
import { plainLetters } from "../../plain-letters.js";

const inOrder: readonly (keyof DateWords["months"])[] = [
  "january",
  "february",
  "march",
  "april",
  "may",
  "june",
  "july",
  "august",
  "september",
  "october",
  "november",
  "december",
];

/** Names of the months in every language, as any general dictionary has them. */
const names: readonly (readonly string[])[] = inOrder.map((month) =>
  languages.flatMap(({ dates }) => phrasesOf(dates.months[month])),
);

const shortest = 3;

/**
 * The month, 1 to 12, of a name or of its first letters, three or more; null where it is none, or could be two
 * (`jui`, juin or juillet).
 *
 * @example
 * monthNamed("Mär.") // => 3
 */
export function monthNamed(text: string): number | null {
  const letters = plainLetters(text).replaceAll(".", "");
  if (letters.length < shortest) return null;
  const months = names.flatMap((spellings, i) =>
    spellings.some((name) => name.startsWith(letters)) ? [i + 1] : [],
  );
  return months.length === 1 ? months[0]! : null;
}
