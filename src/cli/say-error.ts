import { CommanderError } from "commander";
import { InputError } from "../schema/input-error.js";
import { CommandError, type ExitCode, exitCodes } from "./exit-codes.js";
import { reasonOf } from "./reason-of.js";
import { clearProgress, failureOfOutput, write } from "./terminal.js";

/** Says an error for the person at the terminal, and with which code the command exits. */
export function sayError(error: unknown): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.usage;
  clearProgress();
  if (error instanceof CommandError) {
    write.error(`${error.message}\n`);
    return error.exitCode;
  }
  if (error instanceof InputError) {
    write.error(`${error.message}\nNothing was written.\n`);
    return exitCodes.input;
  }
  const detail = process.env.PULLEY_OUTCOMES_TRACE && error instanceof Error ? `\n${error.stack}` : "";
  write.error(
    `The toolkit itself has failed; your data are not the cause: ${error instanceof Error ? error.message : String(error)}${detail}\nNothing was written.\n`,
  );
  return exitCodes.fault;
}

/** The exit code of a command once its words are out: where they cannot be written, nobody may take it for done. */
export async function codeAfterOutput(code: typeof process.exitCode): Promise<typeof process.exitCode> {
  const failure = await failureOfOutput();
  if (failure === null) return code;
  write.error(`The output of this command could not be written: it ${reasonOf(failure)}.\n`);
  return code === exitCodes.done || code === exitCodes.found ? exitCodes.output : code;
}
