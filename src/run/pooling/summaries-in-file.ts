import { type ReadSummary, readSummaries } from "../../pooling/summary/read-summaries.js";
import type { Machine } from "../machine.js";

/** Largest file of summaries that is read, bytes: a thousand sites have some 60 MB. */
export const largestSummaries = 100_000_000;

/**
 * The summaries of a file as it came: of one site, or of several merged.
 *
 * @param given file: its name, for messages
 * @throws SummaryError naming the file and the place of what is wrong
 */
export const summariesInFile = (
  { file, bytes }: { readonly file: string; readonly bytes: Uint8Array },
  { sha256 }: Pick<Machine, "sha256">,
): readonly ReadSummary[] => readSummaries({ file, text: new TextDecoder().decode(bytes) }, { sha256 });
