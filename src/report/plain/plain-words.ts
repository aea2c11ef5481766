import type { Results } from "../../study/results.js";
import { differenceSentences } from "./differences.js";
import { halfBackSentences } from "./half-back.js";
import { limitSentences } from "./limits-of-data.js";
import { endSentences, openingSentences } from "./opening.js";
import { shareSentences } from "./shares.js";

/**
 * The answer as paragraphs of sentences that a patient could read: who is counted, the share back by the main
 * landmark in each group, how groups differ, when half were back, who was not back, and what the data can't say.
 * Plain text, not markup; every number is one of the results, with fewer digits.
 */
export function plainWords(results: Results): readonly (readonly string[])[] {
  if (results.accounting.analysis.analysed === 0) return [openingSentences(results)];
  return [
    openingSentences(results),
    shareSentences(results),
    differenceSentences(results),
    [...halfBackSentences(results), ...endSentences(results)],
    limitSentences(results),
  ].filter((paragraph) => paragraph.length > 0);
}
