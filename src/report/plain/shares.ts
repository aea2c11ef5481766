import { counted } from "../../schema/counted.js";
import type { Plan } from "../../study/plan.js";
import type { Count, Results } from "../../study/results.js";
import { intervalName, intervalWords } from "../../words/estimates.js";
import { share as percent } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { supposition } from "../../words/share-back.js";
import { clockWords, milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { curvesTold, type Told } from "./story.js";

/** One sentence a group: the share back by the main landmark, its interval, and of how many. */
export function shareSentences(results: Results): string[] {
  return curvesTold(results).map((told) => shareSentence(told, results));
}

function shareSentence(told: Told, { plan }: Results): string {
  const { curve, words } = told;
  const { n, landmarks } = curve;
  if (n === 0) return `There is no injury ${words.of}.`;
  if (n === 1) return `There is only 1 injury ${words.of}, and one injury says nothing about a group.`;
  const by = `by ${weeks(plan.main_landmark_weeks)}`;
  const returned = landmarks.find(({ week }) => week === plan.main_landmark_weeks)?.returned;
  if (returned === undefined)
    return `For the ${injuries(n)} ${words.of}, the share back ${by} was not asked for.`;
  if (returned.value === null)
    return `For the ${injuries(n)} ${words.of}, the share back ${by} cannot be given: ${reasonWords(returned.reason)}.`;
  const interval = `${intervalName(plan.confidence_level)} ${intervalWords(returned, "share")}`;
  const bracket =
    returned.lower === null && returned.upper === null ? intervalWords(returned, "share") : interval;
  return sentence({ told, value: returned.value, by, bracket }, plan);
}

/**
 * Whoever enters late is not in the share that were back before: then it is one of injuries treated so from day 0 on, and
 * not of those counted.
 */
function sentence(
  { told, value, by, bracket }: { told: Told; value: number; by: string; bracket: string },
  { question }: Plan,
): string {
  const { curve, words, entry } = told;
  const { back } = milestoneWords[question.milestone];
  const supposed = supposition(question);
  if (supposed === null && entry === "clock")
    return `Of the ${injuries(curve.n)} ${words.of}, ${estimated(value)} ${back} ${by} (${bracket}).`;
  const [whom, from] =
    entry === "clock" ? [`the ${injuries(curve.n)} ${words.of}`, ""] : lateEntry(told, question);
  const verb = supposed === null ? "are" : "would be";
  const share = value === 0 ? `none ${verb}` : `an estimated ${percent(value)} ${verb}`;
  return `${supposed === null ? "Of" : `${supposed}: of`} ${whom}, ${share} ${back} ${by} (${bracket}${from}).`;
}

/** Whom the share of a curve with delayed entry speaks of, and whom it was estimated from. */
function lateEntry({ curve, words, entry }: Told, { clock }: Plan["question"]): readonly [string, string] {
  const counted = `; estimated from ${injuries(curve.n)}`;
  return entry === "treatment"
    ? [
        `injuries ${words.of} from ${clockWords[clock]} on`,
        `${counted}, each at risk from the start of its treatment`,
      ]
    : [`injuries ${words.of}`, `${counted}, each at risk from its first visit`];
}

const injuries = (n: Count): string => counted(n, "injury", "injuries");

function estimated(value: number): string {
  if (value === 0) return "none were observed";
  return `an estimated ${percent(value)} were`;
}
