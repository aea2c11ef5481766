/** What the exit code of every command means. */
export const exitCodes = {
  done: 0,
  /** The command ran, and found something: rows set aside, or a report that does not recompute. */
  found: 1,
  /** The command line itself is not valid. */
  usage: 2,
  /** A study file, a scenario or a table cannot be used as it is. */
  input: 3,
  /** The output cannot be written. */
  output: 4,
  /** A fault of the toolkit. */
  fault: 70,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** The same as a text for `--help`. */
export const exitCodesInWords = `Exit codes:
  0   the command has finished
  1   the command has finished and found something: rows set aside, open questions, or a report that differs
  2   the command line is not valid
  3   a study file, scenario or table cannot be used; nothing was written
  4   the output cannot be written; nothing was left half-written
  70  the toolkit itself has failed`;

/** An error whose message is for the person at the terminal, with the exit code of the command. */
export class CommandError extends Error {
  override readonly name = "CommandError";
  constructor(
    readonly exitCode: ExitCode,
    message: string,
  ) {
    super(message);
  }
}
