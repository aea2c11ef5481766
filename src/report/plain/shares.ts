import { counted } from "../../schema/counted.js";
import type { Count, Results } from "../../study/results.js";
import { intervalName, intervalWords } from "../../words/estimates.js";
import { share } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { milestoneWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { curvesTold, type Told } from "./story.js";

/** One sentence a group: the share back by the main landmark, its interval, and of how many. */
export function shareSentences(results: Results): string[] {
  return curvesTold(results).map((told) => shareSentence(told, results));
}

function shareSentence({ curve, words }: Told, { plan }: Results): string {
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
  return `Of the ${injuries(n)} ${words.of}, ${estimated(returned.value)} ${milestoneWords[plan.question.milestone].back} ${by} (${bracket}).`;
}

const injuries = (n: Count): string => counted(n, "injury", "injuries");

function estimated(value: number): string {
  if (value === 0) return "none were observed";
  return `an estimated ${share(value)} were`;
}
