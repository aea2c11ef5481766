import { sha256 } from "../machine.js";

const mark = "# pulley-outcomes mapping 1, as written: ";

/** A mapping with a first line by which it is known as one that nobody has changed since it was written. */
export const markedMapping = (text: string): string => `${mark}${sha256(text)}\n${text}`;

/** Whether a text is a mapping as this toolkit wrote it: only such a one may be replaced, since answers are work. */
export function isUnchangedMapping(text: string): boolean {
  const end = text.indexOf("\n");
  return end !== -1 && text.slice(0, end + 1) === `${mark}${sha256(text.slice(end + 1))}\n`;
}
