/** Letters that no accent can be taken from, and what they are compared as. */
const undivided: Readonly<Record<string, string>> = { ł: "l", ß: "ss", ø: "o", æ: "ae", œ: "oe", đ: "d" };
const undividedLetters = new RegExp(`[${Object.keys(undivided).join("")}]`, "gu");
const marks = /\p{M}+/gu;

/**
 * Text as it is compared: in small letters without accents; figures and punctuation stay as they are.
 *
 * @example
 * plainLetters("5 października") // => "5 pazdziernika"
 */
export const plainLetters = (text: string): string =>
  // most texts have no other letters, and every cell comes here many times
  /^[\0-\x7f]*$/.test(text) ? text.toLowerCase() : withoutAccents(text);

const withoutAccents = (text: string): string =>
  text
    .normalize("NFD")
    .replaceAll(marks, "")
    .toLowerCase()
    .replaceAll(undividedLetters, (letter) => undivided[letter]!);
