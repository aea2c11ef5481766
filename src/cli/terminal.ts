import { isProgressSeen } from "./own-process.js";

/** Where a command speaks: results on stdout, progress and errors on stderr. */
export interface Terminal {
  readonly say: (text: string) => void;
  /** One line that replaces the last; shown only when stderr is a terminal. */
  readonly progress: (step: string) => void;
}

const clearLine = "\r\u001b[2K";

export const terminal: Terminal = {
  say: (text) => {
    clearProgress();
    process.stdout.write(`${text}\n`);
  },
  progress: (step) => {
    if (isProgressSeen()) process.stderr.write(`${clearLine}${step} ...`);
  },
};

/** Removes the progress line, before anything else is said. */
export function clearProgress(): void {
  if (isProgressSeen()) process.stderr.write(clearLine);
}
