import type { Plan } from "../study/plan.js";
import { plainNumber } from "./numbers.js";

/** The usual time from the injury to unrestricted climbing in one grade, in weeks. */
export type UsualWindow = NonNullable<Plan["usual_windows"][keyof Plan["usual_windows"]]>;

/** The windows are those to unrestricted climbing, so they are shown beside that milestone only. */
export function windowOf(grade: string | null, plan: Plan): UsualWindow | null {
  if (grade === null || plan.question.milestone !== "full_climbing") return null;
  const windows = new Map<string, UsualWindow | undefined>(Object.entries(plan.usual_windows));
  return windows.get(grade) ?? null;
}

/** "8 to 10", "17 or longer": the weeks alone. */
export const shortWindowWords = ({ from_weeks, to_weeks }: UsualWindow): string =>
  to_weeks === null
    ? `${plainNumber(from_weeks)} or longer`
    : `${plainNumber(from_weeks)} to ${plainNumber(to_weeks)}`;

/** "8 to 10 weeks", "17 weeks or longer". */
export const windowWords = ({ from_weeks, to_weeks }: UsualWindow): string =>
  to_weeks === null
    ? `${plainNumber(from_weeks)} weeks or longer`
    : `${plainNumber(from_weeks)} to ${plainNumber(to_weeks)} weeks`;
