import { counted } from "../../schema/counted.js";
import type { Count, Results } from "../../study/results.js";
import { syntheticLine } from "../../words/cautions.js";
import { isSome, isTold } from "../../words/counts.js";
import { meaningWords, sitesWords } from "../../words/definitions.js";
import { listed, peopleOf } from "../../words/phrases.js";
import { changedAfterSealing } from "../../words/sealed.js";
import { endsCountAsNotBack, supposition } from "../../words/share-back.js";
import { clockWords, competingVerb, milestoneWords, nobodyAnalysed } from "../../words/terms.js";

/** Who is counted, and what it means to be back. */
export function openingSentences({
  accounting,
  definitions,
  follow_up,
  plan,
  sealed,
  small_cells,
}: Results): string[] {
  const { analysed, persons } = accounting.analysis;
  const { milestone, clock } = plan.question;
  const invented = plan.synthetic ? [syntheticLine] : [];
  if (analysed === 0) return [...invented, nobodyAnalysed];
  const occurred = plan.question.competing_ends.filter((end) =>
    follow_up.competing.some(({ code, n }) => code === end && isSome(n)),
  );
  const isOfAll = occurred.length > 0 && supposition(plan.question) === null;
  const endsCount = isOfAll ? `; ${endsCountAsNotBack(occurred)}` : "";
  return [
    ...invented,
    `This report follows ${counted(analysed, "pulley injury", "pulley injuries")} in ${peopleOf(persons)}; ` +
      `back means ${backMeans(definitions, milestone)}, and days are counted from ${clockWords[clock]}${endsCount}.`,
    ...changedAfterSealing({ sealed }),
    ...(small_cells.choice === "leave-out"
      ? [
          `All counts are rounded to multiples of ${small_cells.smallest}, and whatever rests on fewer than ${small_cells.smallest} people is left out.`,
        ]
      : []),
  ];
}

function backMeans(
  definitions: Results["definitions"],
  milestone: Results["plan"]["question"]["milestone"],
): string {
  const { name, state } = milestoneWords[milestone];
  if (definitions === null) return `that ${state}`;
  const each = definitions.rows.map((row) => `${meaningWords(row)} ${sitesWords(row)}`);
  return `what each site calls ${name} (${each.join("; ")})`;
}

/** How follow-up ended for everybody counted, so that nobody is thought to be back who is not. */
export function endSentences({ follow_up }: Results): string[] {
  const { n, milestones, censored, competing } = follow_up;
  if (n === 0) return [];
  if (n === 1) return [oneEnd(follow_up)];
  if (milestones === n) return [`All ${n} were observed to return.`];
  const ends: readonly End[] = [
    {
      count: milestones === 0 ? "none" : milestones,
      words: `${isTold(milestones, (back) => back === 1) ? "was" : "were"} observed to return`,
    },
    ...(censored === 0
      ? []
      : [{ count: censored, words: `${censored === 1 ? "was" : "were"} not back at the last contact` }]),
    ...competing.map(({ code, n: count }) => ({ count, words: competingVerb(code) })),
  ];
  const told = ends.filter(({ count }) => typeof count === "number" || count === "none");
  const untold = ends.filter((end) => !told.includes(end));
  return [
    ...(told.length === 0
      ? []
      : [
          `By the end of follow-up, of all ${n}, ${listed(told.map(({ count, words }) => `${count} ${words}`))}.`,
        ]),
    ...(untold.length === 0 ? [] : [`How many ${listed(untold.map(({ words }) => words))} is left out.`]),
  ];
}

/** One way in which follow-up ended, with how many ended so. */
interface End {
  readonly count: Count | "none";
  readonly words: string;
}

function oneEnd({ milestones, competing }: Results["follow_up"]): string {
  if (milestones === 1) return "It was observed to return.";
  const end = competing[0];
  return end === undefined
    ? "It was not back at the last contact."
    : `The person ${competingVerb(end.code)}.`;
}
