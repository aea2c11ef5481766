import { largestSettings, tooLarge } from "../../schema/settings/parse-yaml.js";
import { SettingsError } from "../../schema/settings/settings-error.js";
import { type DecodedText, decodeText } from "./decode-text.js";

/**
 * The text of a file of settings (study file, mapping, scenario), decoded as a table is: UTF-8, UTF-16, else
 * Windows-1252.
 *
 * @param file name of the file, for messages
 * @throws SettingsError where it is no text, or larger than 1 MB
 */
export function settingsText(file: string, bytes: Uint8Array): Extract<DecodedText, { text: string }> {
  const nowhere = { line: null, column: null, at: "" };
  if (bytes.length > largestSettings)
    throw new SettingsError(file, [{ ...nowhere, ...tooLarge(bytes.length) }]);
  const decoded = decodeText(bytes);
  if ("text" in decoded) return decoded;
  throw new SettingsError(file, [
    {
      ...nowhere,
      expected: `this file is not text: ${decoded.notText}.`,
      correction: "Name a file of settings: plain text in YAML, saved as UTF-8.",
    },
  ]);
}
