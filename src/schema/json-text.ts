import { visibleText } from "./hidden-characters.js";

/**
 * A value as the text of a JSON file, indented by two spaces. Characters that cannot be seen are written as escapes,
 * also those that JSON would let stand; reading the file gives the same value.
 */
export const jsonText = (value: unknown): string => `${visibleText(JSON.stringify(value, null, 2))}\n`;
