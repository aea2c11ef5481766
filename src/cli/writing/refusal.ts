import { oneLine } from "../../schema/hidden-characters.js";
import { CommandError, exitCodes } from "../exit-codes.js";

/** An error that leaves everything as it was, with what to do instead. */
export const refusal = (sentence: string, remedy: string): CommandError =>
  new CommandError(exitCodes.output, `${oneLine(sentence)}\n  ${remedy}. Nothing was changed.`);
