import { plainLetters } from "../../schema/plain-letters.js";
import { cleanCell } from "./look-alikes.js";

const smallThenCapital = /(\p{Ll})(\p{Lu})/gu;
const letterThenDigit = /(\p{L}{2,})(\d)/gu;
const digitThenLetter = /(\d)(\p{L}{2,})/gu;
const notWord = /[^\p{L}\p{N}]+/gu;

/**
 * Text as its words in small letters, without accents and punctuation, separated by single spaces.
 *
 * @example
 * plainWords("Größe (Höhe)") // => "grosse hohe"
 */
export const plainWords = (text: string): string =>
  plainLetters(cleanCell(text).text.normalize("NFKC")).replaceAll(notWord, " ").trim();

/** The words of a column name: also apart where capitals or digits begin, as in `injuryDate`, `TPD1`. */
export const wordsOfName = (name: string): readonly string[] =>
  plainWords(
    name
      .replaceAll(smallThenCapital, "$1 $2")
      .replaceAll(letterThenDigit, "$1 $2")
      .replaceAll(digitThenLetter, "$1 $2"),
  )
    .split(" ")
    .filter((word) => word !== "");

/** A column name or coded cell as two of them are compared: letter case and spaces make no difference. */
export const comparedText = (text: string): string =>
  cleanCell(text).text.normalize("NFC").toLowerCase().replaceAll(/\s+/g, " ");
