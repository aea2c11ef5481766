import { wholeDays } from "../cohort/whole-days.js";
import { counted } from "../schema/counted.js";
import { termsOfGroups } from "../schema/covariates.js";
import { labelOf } from "../schema/labels.js";
import { nearest } from "../schema/near.js";
import type { SettingsProblem } from "../schema/settings/settings-error.js";
import { type Path, type Place, pathText, valueAt } from "../schema/settings/settings-problems.js";
import { tableNames } from "../schema/table-names.js";
import { adjustable, type Plan } from "./plan.js";
import type { FromSite } from "./plan-data.js";

const couldOccur = (group: string, { compare }: Plan): boolean =>
  termsOfGroups(compare.by)?.includes(group) ?? true;

/** What each key may hold is right, but together they contradict each other. */
export function contradictionsOf(plan: Plan, written: unknown, place: Place): readonly SettingsProblem[] {
  const problems: SettingsProblem[] = [];
  const say = (path: Path, expected: string, correction: string) =>
    problems.push({ ...place(path), at: pathText(path), expected, correction });
  const { injuries, single_sheet, from_sites } = plan.data;
  if (from_sites !== undefined) problems.push(...problemsOfSites(from_sites, plan, place));
  else if ((injuries === undefined) === (single_sheet === undefined)) {
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

/** Each site names its rows in one way, and nothing of the tables of a single site stands beside them. */
function problemsOfSites(
  sites: readonly FromSite[],
  { data }: Plan,
  place: Place,
): readonly SettingsProblem[] {
  const problem = (path: Path, expected: string, correction: string): SettingsProblem => ({
    ...place(path),
    at: pathText(path),
    expected,
    correction,
  });
  const ofOneSite = [...tableNames, "sheets", "mappings", "answers"] as const;
  return [
    ...ofOneSite
      .filter((name) => data[name] !== undefined)
      .map((name) =>
        problem(
          ["data", name],
          "does not go with several sites: it does not say whose rows these are.",
          "Write it under from_sites, at the site it belongs to.",
        ),
      ),
    ...sites.flatMap(({ site, folder, study, injuries, single_sheet, ...others }, i) => {
      const named = [folder, study, injuries, single_sheet].filter((file) => file !== undefined);
      const path = ["data", "from_sites", i];
      if (named.length !== 1)
        return problem(
          path,
          `the site ${site} names ${named.length === 0 ? "no rows" : "its rows more than once"}.`,
          "Write one of these for it: folder (of a copy made by share), study (its own study file), injuries, or single_sheet.",
        );
      const beside = ofOneSite.find((name) => (others as Partial<FromSite>)[name] !== undefined);
      if ((folder ?? study) === undefined || beside === undefined) return [];
      return problem(
        [...path, beside],
        `the site ${site} names its rows by ${folder === undefined ? "a study file" : "a folder"}, which names its tables itself.`,
        "Remove this line.",
      );
    }),
  ];
}
