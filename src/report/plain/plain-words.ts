import type { Results } from "../../study/results.js";
import { isKeptApart } from "../../words/definitions.js";
import { estimatedFromSpans } from "../../words/known-returns.js";
import { afterSentences } from "./after.js";
import { definitionSentences, differencesWithin } from "./definitions.js";
import { differenceSentences } from "./differences.js";
import { firstTreatmentSentences } from "./first-treatment.js";
import { halfBackSentences } from "./half-back.js";
import { limitSentences } from "./limits-of-data.js";
import { lossSentences } from "./loss.js";
import { endSentences, openingSentences } from "./opening.js";
import { shareSentences } from "./shares.js";
import { curvesTold, mainEffects } from "./story.js";

/** Shares that are not adjusted, where an adjusted comparison has come first. */
const asTheyAre = ([first, ...rest]: readonly string[]): readonly string[] =>
  first === undefined ? [] : [`Without adjustment: ${first}`, ...rest];

/** Whether like could be compared with like: then a figure that mixes unlike injuries does not come first. */
const isAdjusted = (results: Results): boolean =>
  curvesTold(results)[0]?.curve.family === "compared" &&
  mainEffects(results, "landmark_difference").some(({ adjusted }) => adjusted?.estimate.value != null);

/** Each definition of the return by itself, where sites mean different things by it; how many returned in all is no number. */
const answerByDefinition = (results: Results): readonly (readonly string[])[] =>
  [
    [...openingSentences(results), ...modelSentences(results)],
    [...definitionSentences(results), ...shareSentences(results)],
    ...differencesWithin(results),
    firstTreatmentSentences(results),
    afterSentences(results),
    halfBackSentences(results),
    limitSentences(results),
  ].filter((paragraph) => paragraph.length > 0);

/** That figures are estimated from spans, where they are. */
const modelSentences = ({ known_returns }: Results): readonly string[] =>
  known_returns.path === "spans" ? [estimatedFromSpans(known_returns)] : [];

/**
 * The answer as paragraphs of sentences that a patient could read: who is counted, how groups differ like for like, the
 * share back by the main landmark in each group, what came before the first treatment, when half were back, who was not back, how far those lost could change the
 * answer, and what the data can't say.
 * Plain text, not markup; every number is one of the results, with fewer digits.
 */
export function plainWords(results: Results): readonly (readonly string[])[] {
  if (results.accounting.analysis.analysed === 0) return [openingSentences(results)];
  if (isKeptApart(results)) return answerByDefinition(results);
  return [
    [...openingSentences(results), ...modelSentences(results)],
    definitionSentences(results),
    ...(isAdjusted(results)
      ? [differenceSentences(results), asTheyAre(shareSentences(results))]
      : [shareSentences(results), differenceSentences(results)]),
    firstTreatmentSentences(results),
    afterSentences(results),
    [...halfBackSentences(results), ...endSentences(results)],
    lossSentences(results),
    limitSentences(results),
  ].filter((paragraph) => paragraph.length > 0);
}
