import { join } from "node:path";
import { listingOf } from "../run/manifest.js";
import type { Results } from "../study/index.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { fingerprintOf } from "./machine.js";
import { readInput } from "./read-input.js";

/** Results, and what they were read from. */
export interface FoundResults {
  readonly results: Results;
  readonly inputs: readonly string[];
}

/**
 * The results of a report folder, if they are those that it was written with.
 *
 * @param folder a report folder
 * @param otherwise what to do where it is none, as the end of a sentence
 * @throws CommandError saying why the results cannot be used
 */
export async function resultsIn(folder: string, otherwise: string): Promise<FoundResults> {
  const named = (what: string) => ({ what, by: "in the report folder on the command line" });
  const [manifest, path] = [join(folder, "manifest.json"), join(folder, "results.json")];
  const listing = listingOf(new TextDecoder().decode(await readInput(manifest, named("manifest"))));
  const bytes = await readInput(path, named("file of results"));
  const listed = listing?.kind === "report" ? listing.files.get("results.json") : undefined;
  if (listed?.sha256 !== fingerprintOf("results.json", bytes).sha256)
    throw new CommandError(
      exitCodes.input,
      `"${path}" is not the file of results that a report was written with.\n  Name a folder that "pulley-outcomes report" has written and that nobody has changed since${otherwise}.`,
    );
  const { resultsSchema } = await import("../study/results.js");
  const read = resultsSchema.safeParse(JSON.parse(new TextDecoder().decode(bytes)));
  if (!read.success)
    throw new CommandError(
      exitCodes.input,
      `"${path}" was written by another version of the toolkit.\n  Write the report again (pulley-outcomes report)${otherwise}.`,
    );
  return { results: read.data, inputs: [manifest, path] };
}
