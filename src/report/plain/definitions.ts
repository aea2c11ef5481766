import type { Results } from "../../study/results.js";
import { howToPool, isKeptApart, sitesWords } from "../../words/definitions.js";
import { milestoneWords } from "../../words/terms.js";
import { differenceSentences } from "./differences.js";

/** That sites mean different things, and what that makes of the shares; nothing where they mean the same. */
export function definitionSentences({ definitions, plan }: Results): string[] {
  if (definitions === null) return [];
  const differ = `The sites do not mean the same by ${milestoneWords[plan.question.milestone].name}`;
  return definitions.pooled
    ? [
        `${differ}; the study file says that they may be counted together, so part of a difference may come from the definition alone.`,
      ]
    : [
        `${differ}, so no share and no difference is given for all of them together; each definition is answered by itself. ${howToPool}`,
      ];
}

/** The groups compared within each definition alone, a paragraph each; none where definitions are counted together. */
export function differencesWithin(results: Results): readonly (readonly string[])[] {
  if (!isKeptApart(results)) return [];
  return results
    .definitions!.rows.filter(({ effects }) => effects.length > 0)
    .map((row) => [
      `The groups compared among the injuries ${sitesWords(row)} alone:`,
      ...differenceSentences({ ...results, effects: row.effects }),
    ]);
}
