import { adjustable, type Plan } from "./plan.js";
import type { PlanProblem } from "./plan-error.js";
import { type Path, type Place, valueAt } from "./plan-problems.js";

/** What each key may hold is right, but together they contradict each other. */
export function contradictionsOf(plan: Plan, written: unknown, place: Place): readonly PlanProblem[] {
  const problems: PlanProblem[] = [];
  const say = (path: Path, expected: string, mend: string) =>
    problems.push({ ...place(path), at: path.map(String).join("."), expected, mend });
  const { injuries, single_sheet } = plan.data;
  if ((injuries === undefined) === (single_sheet === undefined)) {
    say(
      ["data"],
      injuries === undefined ? "names no table of injuries." : "names both linked tables and a single sheet.",
      'Write "injuries: FILE" for linked tables, or "single_sheet: FILE" for one spreadsheet, not both.',
    );
  }
  const linked = (["treatments", "imaging", "visits"] as const).filter(
    (name) => plan.data[name] !== undefined,
  );
  if (single_sheet !== undefined && linked.length > 0) {
    say(
      ["data", linked[0]!],
      "does not go with a single sheet.",
      "The single sheet holds it already: remove this line.",
    );
  }
  if (!plan.compare.groups.includes(plan.compare.reference)) {
    say(
      ["compare", "reference"],
      `"${plan.compare.reference}" is not among the groups.`,
      `Write one of: ${plan.compare.groups.join(", ")}.`,
    );
  }
  const adjusted = valueAt(written, ["compare", "adjust_for"]);
  if (Array.isArray(adjusted) && adjusted.includes(plan.compare.by)) {
    say(
      ["compare", "adjust_for"],
      `"${plan.compare.by}" is what the groups are made of, so it cannot be held equal between them.`,
      `Remove it. Fields you can adjust for: ${adjustable.filter((field) => field !== plan.compare.by).join(", ")}.`,
    );
  }
  if (!plan.landmarks_weeks.includes(plan.main_landmark_weeks)) {
    say(
      ["main_landmark_weeks"],
      `${plan.main_landmark_weeks} is not among the landmarks.`,
      `Add it to landmarks_weeks, or write one of: ${plan.landmarks_weeks.join(", ")}.`,
    );
  }
  if (plan.question.clock === "treatment_start" && plan.question.entry === "first_visit") {
    say(
      ["question", "entry"],
      "first_visit does not go with a clock that starts with the treatment.",
      'Write "entry: clock", or "clock: injury".',
    );
  }
  return problems;
}
