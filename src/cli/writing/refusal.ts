import { oneLine } from "../../schema/hidden-characters.js";
import { CommandError, exitCodes } from "../exit-codes.js";
import { reasonOf } from "../reason-of.js";

/** An error that leaves everything as it was, with what to do instead. */
export const refusal = (sentence: string, remedy: string): CommandError =>
  new CommandError(exitCodes.output, `${oneLine(sentence)}\n  ${remedy}. Nothing was changed.`);

/** One remedy or another; both are written as beginnings of a sentence. */
export const orElse = (remedy: string, elsewhere: string): string =>
  `${remedy}, or ${elsewhere.charAt(0).toLowerCase()}${elsewhere.slice(1)}`;

/** What the operating system refuses while something is written, as an error for the person. */
export async function orRefusal<T>(path: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw refusal(`"${path}" cannot be written: it ${reasonOf(error)}.`, "Choose another place");
  }
}
