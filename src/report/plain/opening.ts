import type { Results } from "../../study/results.js";
import { counted, listed } from "../format.js";
import { clockWords, codeWords, competingWords, milestoneState } from "../words/terms.js";

/** Who is counted, and what it means to be back. */
export function openingSentences({ accounting, plan }: Results): string[] {
  const { analysed, persons } = accounting.analysis;
  const { milestone, clock } = plan.question;
  const people = counted(persons, "person", "people");
  const invented = plan.synthetic
    ? ["The data are SYNTHETIC: invented, with no patient behind any number."]
    : [];
  if (analysed === 0) return [...invented, "No injury in these data can answer the question."];
  return [
    ...invented,
    `This report follows ${counted(analysed, "pulley injury", "pulley injuries")} of ${people}; ` +
      `back means that ${milestoneState[milestone]}, and days are counted from ${clockWords[clock]}.`,
  ];
}

/** How follow-up ended for everybody counted, so that nobody is thought to be back who is not. */
export function endSentences({ follow_up }: Results): string[] {
  const { n, milestones, censored, competing } = follow_up;
  if (n === 0) return [];
  const others = competing.map(({ code, n: count }) => `${count} ${sayCompeting(code)}`);
  const waiting = `${censored} ${censored === 1 ? "was" : "were"} not back when last seen`;
  const returned = `${milestones === 0 ? "none" : milestones} ${milestones === 1 || milestones === 0 ? "was" : "were"} seen to return`;
  return [`Of ${n === 1 ? "the 1 injury" : `all ${n}`}, ${listed([returned, waiting, ...others])}.`];
}

const sayCompeting = (code: string): string =>
  (competingWords as Readonly<Record<string, string>>)[code] ?? codeWords(code);
