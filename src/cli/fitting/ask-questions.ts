import { createInterface } from "node:readline/promises";
import type { Undecided } from "../../ingest/mapping/index.js";
import { oneLine } from "../../schema/index.js";
import { CommandError, exitCodes } from "../exit-codes.js";

/** Where a person is asked. */
export interface Conversation {
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WritableStream;
}

/** Asks one question; null where it is left undecided. */
export type AskOne = (
  question: Undecided,
  place: { readonly number: number; readonly of: number },
) => Promise<string | null>;

/**
 * Opens a conversation at a terminal. Each question is shown with an example and its choices by number; 0 leaves it
 * undecided, and so does the end of the input, for this question and all that follow.
 */
export function conversation({ input, output }: Conversation): {
  readonly ask: AskOne;
  readonly close: () => void;
} {
  const lines = createInterface({ input, output });
  let isClosed = false;
  let isStopped = false;
  lines.once("SIGINT", () => {
    isStopped = true;
    lines.close();
  });
  lines.once("close", () => {
    isClosed = true;
  });
  const nextLine = (prompt: string): Promise<string | null> =>
    isClosed
      ? Promise.resolve(null)
      : Promise.race([
          lines.question(prompt),
          new Promise<null>((resolve) => {
            lines.once("close", () => resolve(null));
          }),
        ]);
  const ask: AskOne = async (question, place) => {
    const answers = Object.keys(question.choices);
    output.write(questionText(question, place));
    for (;;) {
      const line = await nextLine(`Enter a number, or 0 to leave the question open: `);
      if (isStopped) throw new CommandError(exitCodes.usage, "\nStopped; nothing was written.");
      if (line === null) {
        output.write("\n");
        return null;
      }
      const number = Number(line.trim());
      if (line.trim() !== "" && Number.isInteger(number) && number >= 0 && number <= answers.length) {
        return number === 0 ? null : answers[number - 1]!;
      }
      output.write(`"${oneLine(line.trim())}" is not a number from 0 to ${answers.length}.\n`);
    }
  };
  return { ask, close: () => lines.close() };
}

function questionText(
  { question, example, choices }: Undecided,
  { number, of }: { readonly number: number; readonly of: number },
): string {
  const told = Object.entries(choices).map(([answer, means]) => [oneLine(answer), oneLine(means)] as const);
  const widest = Math.max(...told.map(([answer]) => answer.length));
  const listed = told.map(
    ([answer, means], i) => `  ${String(i + 1).padStart(2)}  ${answer.padEnd(widest)}  ${means}`,
  );
  const shown = example === undefined ? [] : [`  example of a cell: ${oneLine(example)}`];
  return ["", `Question ${number} of ${of}: ${oneLine(question)}`, ...shown, ...listed, ""].join("\n");
}
