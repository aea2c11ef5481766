import { createInterface } from "node:readline/promises";
import { freeAnswerHint, type Mapping, takeAnswer, type Undecided } from "../../ingest/mapping/index.js";
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
  asked: { readonly number: number; readonly of: number; readonly mapping: Mapping },
) => Promise<string | null>;

/** A conversation that is going on. */
export interface Conversing {
  readonly ask: AskOne;
  /** One line after a prompt; null at the end of the input. */
  readonly line: (prompt: string) => Promise<string | null>;
  readonly say: (text: string) => void;
  readonly close: () => void;
}

/**
 * Opens a conversation at a terminal. Each question is shown with an example and its choices by number; where another
 * answer is possible, it may be typed. 0 leaves it undecided, and so does the end of the input, for this question and all that follow.
 */
export function conversation({ input, output }: Conversation): Conversing {
  const lines = createInterface({ input, output });
  let isClosed = false;
  let isStopped = false;
  lines.once("SIGINT", () => {
    isStopped = true;
    lines.close();
  });
  const closed = new Promise<null>((resolve) => {
    lines.once("close", () => {
      isClosed = true;
      resolve(null);
    });
  });
  const nextLine = (prompt: string): Promise<string | null> =>
    isClosed ? Promise.resolve(null) : Promise.race([lines.question(prompt), closed]);
  const ask: AskOne = async (question, { mapping, ...place }) => {
    const answers = Object.keys(question.choices);
    const hint = freeAnswerHint(question, mapping);
    output.write(questionText(question, place));
    for (;;) {
      const line = await nextLine(
        `Enter a number${hint === null ? "" : `, or ${oneLine(hint)}`}, or 0 to leave the question open: `,
      );
      if (isStopped) throw stopped();
      if (line === null) {
        output.write("\n");
        return null;
      }
      const number = Number(line.trim());
      if (line.trim() !== "" && Number.isInteger(number) && number >= 0 && number <= answers.length) {
        return number === 0 ? null : answers[number - 1]!;
      }
      const taken = typedAnswer(question, { text: line.trim(), mapping });
      if ("answer" in taken) return taken.answer;
      output.write(`${taken.expected}\n`);
    }
  };
  const line = async (prompt: string): Promise<string | null> => {
    const text = await nextLine(prompt);
    if (isStopped) throw stopped();
    return text;
  };
  return { ask, line, say: (text) => output.write(text), close: () => lines.close() };
}

/** An answer in words; a number that is none of those shown is no such answer. */
function typedAnswer(
  question: Undecided,
  { text, mapping }: { readonly text: string; readonly mapping: Mapping },
): ReturnType<typeof takeAnswer> {
  const isOpen = freeAnswerHint(question, mapping) !== null || Object.hasOwn(question.choices, text);
  const isWord = isOpen && text !== "" && !/^\d+$/.test(text);
  if (!isWord)
    return {
      expected: `"${oneLine(text)}" is not a number from 0 to ${Object.keys(question.choices).length}.`,
    };
  const taken = takeAnswer(question, { text, mapping });
  return "answer" in taken
    ? taken
    : { expected: `"${oneLine(text)}" is not a possible answer. ${oneLine(taken.expected)}` };
}

const stopped = (): CommandError => new CommandError(exitCodes.usage, "\nStopped; nothing was written.");

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
