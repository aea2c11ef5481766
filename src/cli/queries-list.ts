import { stat } from "node:fs/promises";
import { basename } from "node:path";
import { type CohortForSite, type EarlierList, earlierList, type QueriesList } from "../ingest/index.js";
import { counted, oneLine, StopError } from "../schema/index.js";
import { confirm, isAtTerminal } from "./confirm.js";
import { CommandError, exitCodes } from "./exit-codes.js";
import { readInput } from "./read-input.js";
import type { StudyInput } from "./study-input.js";
import { type FileOptions, refuseFile, writeNewFile } from "./writing/index.js";

const chooseList = "Choose another name with --queries";

/** A file for the list of queries, as it was found. */
export interface ListPlace {
  readonly path: string;
  /** What stands there already; null where there is nothing. */
  readonly bytes: Uint8Array | null;
}

/**
 * Looks at the place of the list before the tables are read.
 *
 * @param options mayReplace: whether a list that stands there may give way to one that holds its answers
 * @throws CommandError where nothing can be written there
 */
export async function placeForList(
  path: string,
  { study, mayReplace }: { readonly study: string; readonly mayReplace: boolean },
): Promise<ListPlace> {
  const found = await stat(path).catch(() => null);
  if (found?.isFile() !== true) {
    await refuseFile(path, { inputs: [study], elsewhere: chooseList });
    return { path, bytes: null };
  }
  if (!mayReplace && !isAtTerminal()) {
    const elsewhere = `${chooseList}, or add --replace: the answers in it are then carried over into the new list`;
    await refuseFile(path, { inputs: [study], elsewhere });
  }
  const place = { path, bytes: await readInput(path, { what: "list of queries", by: "with --queries" }) };
  await refuseFile(path, writingOf(place, [study]));
  return place;
}

/** Only the very file whose answers were read may give way. */
const writingOf = ({ bytes }: ListPlace, inputs: readonly string[]): FileOptions => ({
  inputs,
  elsewhere: chooseList,
  mayReplace: bytes === null ? null : (text) => text === Buffer.from(bytes).toString("utf8"),
});

/**
 * Writes the list, with the answers of the list that stood there before.
 *
 * @returns null where somebody was asked and does not want that
 * @throws CommandError where anything in the earlier list would be lost; then it is as it was
 */
export async function writeList(
  place: ListPlace,
  {
    forSite,
    input,
    mayReplace,
  }: { readonly forSite: CohortForSite; readonly input: StudyInput; readonly mayReplace: boolean },
): Promise<QueriesList | null> {
  const earlier = place.bytes === null ? noLines : linesOf(place, place.bytes, input);
  const list = forSite.listWith(earlier.lines);
  if (place.bytes !== null && !mayReplace) {
    const question = `${oneLine(place.path)} exists already. Write the new list in its place, with ${counted(earlier.lines.length, "answered line", "answered lines")} carried over?`;
    if (!(await confirm(question))) return null;
  }
  const others = input.paths.filter((path) => path !== input.answersPath);
  await writeNewFile(place.path, list.csv, writingOf(place, others));
  return list;
}

const noLines: EarlierList = { lines: [], reasons: [] };

function linesOf({ path }: ListPlace, bytes: Uint8Array, { plan }: StudyInput): EarlierList {
  const refused = (why: string) =>
    new CommandError(exitCodes.output, `${oneLine(path)} is left as it is: ${why}\n  ${chooseList}.`);
  let found: EarlierList;
  try {
    found = earlierList({ file: basename(path), bytes }, { dateOrder: plan.data.date_order });
  } catch (error) {
    if (!(error instanceof StopError)) throw error;
    throw refused("it exists already, and is not a list of queries.");
  }
  if (found.reasons.length === 0) return found;
  const shown = found.reasons.slice(0, mostReasons).map((reason) => `\n    ${oneLine(reason)}`);
  const more =
    found.reasons.length > mostReasons ? `\n    and ${found.reasons.length - mostReasons} more` : "";
  throw refused(
    `something in it would not be carried over.${shown.join("")}${more}\n  Correct or move what is named`,
  );
}

const mostReasons = 10;
