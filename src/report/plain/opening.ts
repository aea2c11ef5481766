import { isTold } from "../../charts/counts.js";
import type { Count, Results } from "../../study/results.js";
import { smallCell } from "../../study/results-parts.js";
import { counted, listed, peopleOf } from "../format.js";
import { clockWords, codeWords, competingWords, milestoneState } from "../words/terms.js";

/** Who is counted, and what it means to be back. */
export function openingSentences({ accounting, plan, small_cells }: Results): string[] {
  const { analysed, persons } = accounting.analysis;
  const { milestone, clock } = plan.question;
  const invented = plan.synthetic
    ? ["The data are SYNTHETIC: invented, with no patient behind any number."]
    : [];
  if (analysed === 0) return [...invented, "No injury in these data can answer the question."];
  return [
    ...invented,
    `This report follows ${counted(analysed, "pulley injury", "pulley injuries")} of ${peopleOf(persons)}; ` +
      `back means that ${milestoneState[milestone]}, and days are counted from ${clockWords[clock]}.`,
    ...(small_cells.choice === "leave-out"
      ? [
          `All counts are rounded to multiples of ${small_cells.smallest}, and what fewer than ${small_cells.smallest} people are behind is left out.`,
        ]
      : []),
  ];
}

/** How follow-up ended for everybody counted, so that nobody is thought to be back who is not. */
export function endSentences({ follow_up }: Results): string[] {
  const { n, milestones, censored, competing } = follow_up;
  if (n === 0) return [];
  if (n === 1) return [oneEnd(follow_up)];
  if (milestones === n) return [`All ${n} were seen to return.`];
  const ends: readonly End[] = [
    {
      count: milestones === 0 ? "none" : milestones,
      words: `${isTold(milestones, (back) => back < 2) ? "was" : "were"} seen to return`,
    },
    ...(censored === 0
      ? []
      : [{ count: censored, words: `${censored === 1 ? "was" : "were"} not back when last seen` }]),
    ...competing.map(({ code, n: count }) => ({ count, words: sayCompeting(code) })),
  ];
  const told = ends.filter(({ count }) => count !== smallCell);
  const untold = ends.filter(({ count }) => count === smallCell);
  return [
    ...(told.length === 0
      ? []
      : [`Of all ${n}, ${listed(told.map(({ count, words }) => `${count} ${words}`))}.`]),
    ...(untold.length === 0 ? [] : [`How many ${listed(untold.map(({ words }) => words))} is left out.`]),
  ];
}

/** One way in which follow-up ended, with how many ended so. */
interface End {
  readonly count: Count | "none";
  readonly words: string;
}

function oneEnd({ milestones, competing }: Results["follow_up"]): string {
  if (milestones === 1) return "It was seen to return.";
  const end = competing[0];
  return end === undefined ? "It was not back when last seen." : `The person ${sayCompeting(end.code)}.`;
}

const sayCompeting = (code: string): string =>
  (competingWords as Readonly<Record<string, string>>)[code] ?? codeWords(code);
