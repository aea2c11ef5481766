import { visibleText } from "../schema/hidden-characters.js";
import { isProgressSeen } from "./own-process.js";

/** Where a command speaks: results on stdout, progress and errors on stderr. */
export interface Terminal {
  /** A text of one or more lines. What it repeats from outside must be on one line: see `oneLine`. */
  readonly say: (text: string) => void;
  /** What a person should know besides the result, on stderr. */
  readonly notice: (text: string) => void;
  /** One line that replaces the last; shown only when stderr is a terminal. */
  readonly progress: (step: string) => void;
}

const clearLine = "\r\u001b[2K";

/** What went wrong first when writing to stdout: the disk may be full, or whoever reads it may have stopped, as `head` does. */
let failed: Error | null = null;
const noteFailure = (error: Error): void => {
  failed ??= error;
};
process.stdout.on("error", noteFailure);
// where stderr cannot be written to, there is nobody left to tell
process.stderr.on("error", () => undefined);

/** The two streams, for texts that bring their own ends of lines. */
export const write = {
  /** An error is kept for the end, so that what the command does is done whole. */
  out: (text: string): void => {
    // to a file some versions of Node throw, others tell the stream
    try {
      process.stdout.write(visibleText(text));
    } catch (error) {
      noteFailure(error as Error);
    }
  },
  error: (text: string): void => steer(visibleText(text)),
};

/** Writes to stderr as it is: for what steers the terminal, which nothing from outside may. */
function steer(sequence: string): void {
  try {
    process.stderr.write(sequence);
  } catch {
    // nobody left to tell
  }
}

/** The first error of stdout, once everything has been written; null where there was none. */
export async function failureOfOutput(): Promise<Error | null> {
  if (failed === null) {
    await new Promise<void>((done) => {
      process.stdout.write("", () => done());
    });
  }
  return failed;
}

/**
 * The one door to the screen. Characters that cannot be seen, and sequences by which a terminal is steered, are written
 * out whatever text they come in: a cell, a file's name, an argument, the message of a library.
 */
export const terminal: Terminal = {
  say: (text) => {
    clearProgress();
    write.out(`${text}\n`);
  },
  notice: (text) => {
    clearProgress();
    write.error(`${text}\n`);
  },
  progress: (step) => {
    if (isProgressSeen()) steer(`${clearLine}${visibleText(step)} ...`);
  },
};

/** Removes the progress line, before anything else is said. */
export function clearProgress(): void {
  if (isProgressSeen()) steer(clearLine);
}
