import type { Results } from "../../study/results.js";
import { isKeptApart } from "../../words/definitions.js";
import { estimatedFromSpans } from "../../words/known-returns.js";
import { lossSentencesOfSites, scheduleSentences } from "../../words/pooling/harmonised.js";
import { sitesOpening } from "../../words/pooling/site-answers.js";
import { afterSentences } from "./after.js";
import { definitionSentences, differencesWithin } from "./definitions.js";
import { differenceSentences } from "./differences.js";
import {
  type FiguresOf,
  ofAdjustedCurves,
  ofAfter,
  ofDifferences,
  ofDifferencesWithin,
  ofMainDifferences,
  ofShares,
} from "./figures-of.js";
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

/** Sentences that stand together, and what their figures are figures of. */
export interface Paragraph {
  readonly sentences: readonly string[];
  readonly figuresOf: FiguresOf;
  /** Whether it stands behind the table and the figure, which follow the answer itself. */
  readonly isFurther: boolean;
}

const paragraph = (sentences: readonly string[], figuresOf: FiguresOf = []): Paragraph => ({
  sentences,
  figuresOf,
  isFurther: false,
});

const further = (...given: Parameters<typeof paragraph>): Paragraph => ({
  ...paragraph(...given),
  isFurther: true,
});

/** Each definition of the return by itself, where sites mean different things by it; how many returned in all is no number. */
const answerByDefinition = (results: Results): readonly Paragraph[] => [
  paragraph([...openingSentences(results), ...modelSentences(results)]),
  paragraph(siteSentences(results)),
  paragraph([...definitionSentences(results), ...shareSentences(results)], ofShares(results)),
  ...differencesWithin(results).map((sentences) => paragraph(sentences, ofDifferencesWithin(results))),
  further(firstTreatmentSentences(results)),
  further(afterSentences(results), ofAfter),
  further(halfBackSentences(results), ofShares(results)),
  paragraph(limitSentences(results)),
];

/** That figures are estimated from spans, where they are. */
const modelSentences = ({ known_returns }: Results): readonly string[] =>
  known_returns.path === "spans" ? [estimatedFromSpans(known_returns)] : [];

/** How many sites there are, and how unlike their schedules and losses are: before anything that they found. */
const siteSentences = (results: Results): readonly string[] =>
  results.harmonised === null
    ? []
    : [
        ...sitesOpening(results),
        ...(results.harmonised.schedules.verdict === "unlike"
          ? scheduleSentences(results.harmonised.schedules)
          : []),
        ...(results.harmonised.losses.verdict === "unlike"
          ? lossSentencesOfSites(results.harmonised.losses)
          : []),
      ];

/** The answer where sites mean the same by the return, or may be counted together. */
function answerForAll(results: Results): readonly Paragraph[] {
  const shares = shareSentences(results);
  const differences = paragraph(differenceSentences(results), ofDifferences(results));
  return [
    paragraph([...openingSentences(results), ...modelSentences(results)]),
    paragraph(siteSentences(results)),
    paragraph(definitionSentences(results)),
    ...(isAdjusted(results)
      ? [differences, further(asTheyAre(shares), ofShares(results))]
      : [paragraph(shares, ofShares(results)), differences]),
    further(firstTreatmentSentences(results)),
    further(afterSentences(results), ofAfter),
    further(
      [...halfBackSentences(results), ...endSentences(results)],
      [...ofAdjustedCurves(results), ...ofShares(results)],
    ),
    further(
      lossSentences(results),
      results.effects.length > 0 ? ofMainDifferences(results) : ofShares(results),
    ),
    paragraph(limitSentences(results)),
  ];
}

/**
 * The answer as paragraphs of sentences that a patient could read: who is counted, how groups differ like for like, the
 * share back by the main landmark in each group, what came before the first treatment, when half were back, who was not back, how
 * far those lost could change the answer, and what the data can't say; with what the figures of each are figures of.
 * Plain text, not markup; every number is one of the results, with fewer digits.
 */
export function plainParagraphs(results: Results): readonly Paragraph[] {
  if (results.accounting.analysis.analysed === 0) return [paragraph(openingSentences(results))];
  const all = isKeptApart(results) ? answerByDefinition(results) : answerForAll(results);
  return all.filter(({ sentences }) => sentences.length > 0);
}

/** The sentences alone. */
export const plainWords = (results: Results): readonly (readonly string[])[] =>
  plainParagraphs(results).map(({ sentences }) => sentences);
