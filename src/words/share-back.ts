import type { Plan } from "../study/plan.js";
import { capital, eitherOf } from "./phrases.js";
import { competingPast } from "./terms.js";

type Question = Plan["question"];

/** What people did who came to a competing end, in one breath: "gave up climbing or died". */
export const endsOf = (ends: Question["competing_ends"]): string => eitherOf(ends.map(competingPast));

/** What a share back is a share of; empty where no end competes with a return. */
export function shareBackNote(question: Question): string {
  if (question.competing_ends.length === 0) return "";
  return question.share_back === "of_everyone"
    ? `${capital(endsCountAsNotBack(question.competing_ends))}.`
    : `Shares back are those that would be seen if nobody ${endsOf(question.competing_ends)}; that is a supposition, which no data can show.`;
}

/** How a share of everyone counts those who came to one of these ends, as a clause. */
export const endsCountAsNotBack = (ends: Question["competing_ends"]): string =>
  `whoever ${endsOf(ends)} before being back counts as not back`;

/** A supposition before a sentence on shares that are not of real people; null where they are. */
export const supposition = (question: Question): string | null =>
  question.share_back === "of_everyone" || question.competing_ends.length === 0
    ? null
    : `If nobody ${endsOf(question.competing_ends)}`;

/** What a mean time counts for those who came to a competing end. */
export function meanTimeNote(question: Question): string {
  if (question.competing_ends.length === 0 || question.share_back !== "of_everyone") return "";
  return `Whoever ${endsOf(question.competing_ends)} counts as not back up to the horizon.`;
}
