import { oneLine } from "../schema/hidden-characters.js";
import { CommandError, exitCodes } from "./exit-codes.js";

/**
 * Refuses a line break or a control character in an argument: in a message it could pass for a line of ours.
 *
 * @throws CommandError that shows the argument
 */
export function checkArguments(words: readonly string[]): void {
  const odd = words.find((argument) => /[\p{Cc}\p{Zl}\p{Zp}]/u.test(argument));
  if (odd === undefined) return;
  throw new CommandError(
    exitCodes.usage,
    `"${oneLine(odd)}" contains a line break or a control character, which is not allowed in an argument.\n  Type it again. A file or folder with such a name has to be renamed first.`,
  );
}
