import { visibleText } from "../schema/hidden-characters.js";
import { labelOf } from "../schema/labels.js";
import { measureOf } from "../study/measures/index.js";
import type { Results } from "../study/results.js";
import { adjustmentClause } from "../words/adjustment.js";
import { cautionLine, syntheticLine } from "../words/cautions.js";
import { level } from "../words/numbers.js";
import { listed } from "../words/phrases.js";
import { clockWords, groupName, milestoneWords } from "../words/terms.js";
import { weeks } from "../words/times.js";
import { limitSentences } from "./plain/limits-of-data.js";
import { plainParagraphs } from "./plain/plain-words.js";

/**
 * A structured abstract in Markdown: aim, methods and results from the numbers of the report, in its own sentences; what no
 * number knows is left to the authors, in square brackets. Invented data are marked, and the caution stands beneath.
 */
export function abstractText(results: Results): string {
  const { plan } = results;
  const limits = limitSentences(results);
  const parts: readonly (readonly [name: string, paragraphs: readonly string[]])[] = [
    ["Background", [forAuthors("what is known, and why this was asked")]],
    ["Aim", [aim(results)]],
    ["Methods", [methods(results)]],
    ["Results", answerParagraphs(results, limits)],
    ["Limits and conclusions", [[...limits, forAuthors("what follows, within these limits")].join(" ")]],
  ];
  const paragraphs = [
    `# ${escaped(plan.title)}`,
    ...(plan.synthetic ? [`**${syntheticLine}**`] : []),
    ...parts.flatMap(([name, [first = "", ...rest]]) => [
      `**${name}.** ${escaped(first)}`,
      ...rest.map(escaped),
    ]),
    `_${cautionLine}_`,
  ];
  return `${paragraphs.join("\n\n")}\n`;
}

const forAuthors = (words: string): string => `[For the authors: ${words}.]`;

/** Characters that Markdown or markup would take for its own, in titles and names from the study, and those that cannot be seen. */
const escaped = (text: string): string => visibleText(text).replace(/[\\`*_[\]<>#|~]/g, "\\$&");

function aim({ plan, effects }: Results): string {
  const { milestone, clock } = plan.question;
  const { by, groups } = plan.compare;
  const compared =
    effects.length === 0
      ? ""
      : `, and did ${listed(groups.map((group) => groupName(group, by)))} differ (by ${labelOf(by)})`;
  return `When were they ${milestoneWords[milestone].back}, counted from ${clockWords[clock]}${compared}?`;
}

function methods({ plan, accounting, effects, follow_up }: Results): string {
  const { recruited } = follow_up;
  const { analysed, persons } = accounting.analysis;
  const main = effects.filter((effect) => effect.main && measureOf(effect.measure).outcome === "return");
  const ways = [...new Set(main.map(({ adjusted_for }) => adjustmentClause(adjusted_for)))];
  const together = persons === analysed ? "" : "; several injuries of one person are taken together in them";
  return [
    `A cohort study. Day 0 is ${clockWords[plan.question.clock]}${recruited === null ? "" : `, in the months ${recruited.from} to ${recruited.to}`}. Injuries were followed to the return, another end or the last contact; the return is ${milestoneWords[plan.question.milestone].meaning}.`,
    ...(ways.length === 0 ? [] : [`Groups were compared ${listed(ways)}.`]),
    `Intervals are two-sided at ${level(plan.confidence_level)}${together}. The main landmark, ${weeks(plan.main_landmark_weeks)}, was fixed in the study file.`,
    forAuthors(
      "the setting, who was eligible, how people came to the site, whether the study was planned before the data were collected, and ethics approval",
    ),
  ].join(" ");
}

/** The answer without what stands further behind it, and without its limits, which stand by themselves. */
const answerParagraphs = (results: Results, limits: readonly string[]): readonly string[] =>
  plainParagraphs(results)
    .filter(({ isFurther, sentences }) => !isFurther && sentences.join() !== limits.join())
    .map(({ sentences }) => sentences.filter((sentence) => sentence !== syntheticLine).join(" "));
