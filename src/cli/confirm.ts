import { createInterface } from "node:readline/promises";
import { CommandError, exitCodes } from "./exit-codes.js";

/** Whether somebody is there who can be asked. */
export const isAtTerminal = (): boolean => process.stdin.isTTY === true && process.stdout.isTTY === true;

/** Asks a question that is answered by yes or no; the end of the input means no. */
export async function confirm(
  question: string,
  { input, output }: { readonly input: NodeJS.ReadableStream; readonly output: NodeJS.WritableStream } = {
    input: process.stdin,
    output: process.stdout,
  },
): Promise<boolean> {
  const lines = createInterface({ input, output });
  let isStopped = false;
  lines.once("SIGINT", () => {
    isStopped = true;
    lines.close();
  });
  lines.setPrompt(`${question} (yes or no) `);
  lines.prompt();
  for await (const line of lines) {
    const said = /^\s*(?:(y(?:es)?)|no?)\s*$/i.exec(line);
    if (said !== null) {
      lines.close();
      return said[1] !== undefined;
    }
    lines.prompt();
  }
  if (isStopped) throw new CommandError(exitCodes.usage, "\nStopped; nothing was written.");
  return false;
}
