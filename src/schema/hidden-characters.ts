/** A letter or mark of a script in which some characters without a look of their own shape the others. */
const joiningLetter =
  "(?![\\p{Script=Latin}\\p{Script=Greek}\\p{Script=Cyrillic}\\p{Script=Inherited}])[\\p{L}\\p{M}]";

/** Where such a character does what it is there for: between letters of scripts that join, in emoji, on keycaps. */
const inUse = [
  `(?<=${joiningLetter})(?:[\\u200c\\u200d](?=\\p{L})|\\p{Variation_Selector})`,
  "(?<=[\\p{Extended_Pictographic}\\p{Emoji_Modifier}]|\\p{Extended_Pictographic}\\ufe0f)(?:\\ufe0f|\\u200d(?=\\p{Extended_Pictographic}))",
  "\\ufe0f\\u20e3",
];

/**
 * A character that cannot be seen, or that changes how the text around it is shown: control characters, marks that
 * turn the reading direction, letters of no width, separators of lines and paragraphs, halves of characters, and what
 * Unicode says is never a character.
 */
const unseen =
  "[\\p{Cc}\\p{Cs}\\p{Zl}\\p{Zp}\\p{Noncharacter_Code_Point}\\p{Default_Ignorable_Code_Point}\\ufff9-\\ufffb]";
// looked for first: what stands around it is looked at in few places then
const hidden = `(?=${unseen})${inUse.map((use) => `(?!${use})`).join("")}${unseen}`;
const anyHidden = new RegExp(hidden, "u");
const eachHidden = new RegExp(hidden, "gu");

/** Most texts hold none, and this is quickly seen. */
const isPlain = (text: string): boolean => !/[^\x20-\x7e]/.test(text);

/** Whether a text holds a character that cannot be seen, or that changes how the text around it is shown. */
export const holdsHidden = (text: string): boolean => !isPlain(text) && anyHidden.test(text);

/**
 * A text with every hidden character written out as `\u` and four digits, as JSON does it, so that it is seen and does
 * nothing. Line feeds and tabs stay: this is for texts of ours, which have lines.
 *
 * @example
 * visibleText("a\u0007b\nc") // => "a\\u0007b\nc"
 */
export const visibleText = (text: string): string =>
  isPlain(text)
    ? text
    : text.replace(eachHidden, (character) => (/[\n\t]/.test(character) ? character : escapeOf(character)));

/**
 * The same, with line feeds and tabs written out as well: for a text from outside that is put into a line of ours, so
 * that it cannot begin a line of its own.
 *
 * @example
 * oneLine("a\nb") // => "a\\nb"
 */
export const oneLine = (text: string): string => (isPlain(text) ? text : text.replace(eachHidden, escapeOf));

const short: ReadonlyMap<string, string> = new Map([
  ["\n", "\\n"],
  ["\r", "\\r"],
  ["\t", "\\t"],
]);

function escapeOf(character: string): string {
  const units = Array.from({ length: character.length }, (_, i) => character.charCodeAt(i));
  return short.get(character) ?? units.map((unit) => `\\u${unit.toString(16).padStart(4, "0")}`).join("");
}
