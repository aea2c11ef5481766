import { wholeDays } from "../cohort/whole-days.js";
import { counted } from "../schema/counted.js";
import { termsOfGroups } from "../schema/covariates.js";
import { labelOf } from "../schema/labels.js";
import { nearest } from "../schema/near.js";
import type { SettingsProblem } from "../schema/settings/settings-error.js";
import { type Path, type Place, pathText, valueAt } from "../schema/settings/settings-problems.js";
import { adjustable, type Plan } from "./plan.js";

const couldOccur = (group: string, { compare }: Plan): boolean =>
  termsOfGroups(compare.by)?.includes(group) ?? true;

/** What each key may hold is right, but together they contradict each other. */
export function contradictionsOf(plan: Plan, written: unknown, place: Place): readonly SettingsProblem[] {
  const problems: SettingsProblem[] = [];
  const say = (path: Path, expected: string, correction: string) =>
    problems.push({ ...place(path), at: pathText(path), expected, correction });
  const { injuries, single_sheet } = plan.data;
  if ((injuries === undefined) === (single_sheet === undefined)) {
    say(
      ["data"],
      injuries === undefined ? "names no table of injuries." : "names both linked tables and a single sheet.",
      'Write "injuries: FILE" for linked tables, or "single_sheet: FILE" for one spreadsheet, not both.',
    );
  }
  for (const table of Object.keys(plan.data.mappings ?? {}) as (keyof NonNullable<
    Plan["data"]["mappings"]
  >)[]) {
    if (plan.data[table] !== undefined) continue;
    say(
      ["data", "mappings", table],
      "is a mapping for a table that has no file.",
      `Name the file: add "${table}: FILE" under data, or remove this line.`,
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
  for (const label of plan.compare.groups.filter((group) => !couldOccur(group, plan))) {
    const known = termsOfGroups(plan.compare.by) ?? [];
    const near = nearest(label, known);
    say(
      ["compare", "groups"],
      `"${label}" is not a ${labelOf(plan.compare.by)}.`,
      `${near === null ? "" : `Did you mean "${near}"? `}Write groups among: ${known.join(", ")}.`,
    );
  }
  const late = plan.landmarks_weeks.filter((week) => wholeDays(week) > wholeDays(plan.horizon_weeks));
  if (late.length > 0) {
    say(
      ["landmarks_weeks"],
      `${late.join(", ")} is beyond the horizon of ${counted(plan.horizon_weeks, "week", "weeks")}.`,
      "Lengthen horizon_weeks, or leave that landmark out.",
    );
  }
  const again = plan.landmarks_weeks.filter((week, i, all) =>
    all.slice(0, i).some((before) => wholeDays(before) === wholeDays(week)),
  );
  for (const week of again) {
    say(
      ["landmarks_weeks"],
      `${week} is day ${wholeDays(week)}, as another landmark is: part of a week is counted as the nearest whole day.`,
      "Leave one of the two out.",
    );
  }
  if (!plan.landmarks_weeks.includes(plan.main_landmark_weeks)) {
    say(
      ["main_landmark_weeks"],
      `${plan.main_landmark_weeks} is not among the landmarks.`,
      `Add it to landmarks_weeks, or write one of: ${plan.landmarks_weeks.join(", ")}.`,
    );
  }
  if (plan.question.first_treatment === "of_compared" && plan.compare.by !== "first_treatment") {
    say(
      ["question", "first_treatment"],
      `of_compared does not go with groups by ${labelOf(plan.compare.by)}: no treatments are compared.`,
      'Write "first_treatment: rest_aside" or "of_all", or remove this line.',
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
