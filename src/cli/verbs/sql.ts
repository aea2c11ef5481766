import { readFile } from "node:fs/promises";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import type { Terminal } from "../terminal.js";

/** Beside the compiled code, as the build copies it. */
const query = new URL("../../pooling/tables/risk-sets.sql", import.meta.url);

/** Prints the query that makes risk-set tables in a database. */
export async function sql(terminal: Terminal): Promise<ExitCode> {
  terminal.say((await readFile(query, "utf8")).trimEnd());
  return exitCodes.done;
}
