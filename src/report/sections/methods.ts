import type { Results } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { behind, bullets, heading } from "../layout/blocks.js";
import { comparisonMethods } from "../methods/comparison.js";
import { curveMethods } from "../methods/curves.js";
import { distanceMethods } from "../methods/distances.js";
import { missingMethods } from "../methods/missing.js";
import { questionMethods } from "../methods/question.js";

const parts: readonly (readonly [title: string, sentences: (results: Results) => readonly string[]])[] = [
  ["The question", questionMethods],
  ["Curves and follow-up", curveMethods],
  ["Missing values and loss to follow-up", missingMethods],
  ["Comparisons", comparisonMethods],
  ["Distances", distanceMethods],
];

/** Sentences about what was run, and only about that, each method with its published source. */
export function methodsSection({ results }: ReportContext): Section {
  return section(
    "methods",
    behind(
      "What was run, sentence by sentence with its published source",
      html`${parts
        .map(([title, sentencesOf]) => [title, sentencesOf(results)] as const)
        .filter(([, sentences]) => sentences.length > 0)
        .map(([title, sentences]) => html`${heading(title)}${bullets(sentences)}`)}`,
    ),
  );
}
