import { counted } from "../../schema/counted.js";
import type { Plan } from "../../study/plan.js";
import type { AfterReturnGroup, Results, StatesOverTime } from "../../study/results.js";
import { figureCaution } from "../cautions.js";
import { isSome, returnedOf, sumOf } from "../counts.js";
import { fieldOf } from "../curve-families.js";
import { intervalWords, shortIntervalName, valueWords } from "../estimates.js";
import { plainNumber } from "../numbers.js";
import { milestoneWords } from "../terms.js";
import type { FigureText } from "./figure-text.js";
import { type GroupNames, groupNames } from "./group-names.js";
import { familyPhrase } from "./return-curves.js";

export type Standing = Exclude<keyof StatesOverTime["points"][number], "day">;

/** Where an injury stands, from the bottom of the figure to its top. */
export const standings = {
  back_and_well: "back, not ruptured again",
  ruptured_again: "back, ruptured again since",
  ended_after: "back, gave up or died since",
  not_yet: "not yet back",
  ended_before: "another end, never back",
} as const satisfies Record<Standing, string>;

export const followedTitle = "followed: not yet back + back";

/** What the figure of the time after the return is about. */
export interface AfterShown {
  /** Groups of one family. */
  readonly groups: readonly AfterReturnGroup[];
  readonly plan: Plan;
}

/** The groups of which the figure is drawn: those compared where a return of one of them did not last, else everybody, or each definition of the return; none where all lasted. */
export function groupsAfterReturn({
  after_return,
}: Pick<Results, "after_return">): readonly AfterReturnGroup[] {
  const of = (wanted: AfterReturnGroup["family"]) =>
    (after_return?.groups ?? []).filter(({ family }) => family === wanted);
  return (
    [of("compared"), of("all"), of("definition")].find((groups) =>
      groups.some(({ ruptured_again, over_time }) => isSome(ruptured_again) && over_time.points.length > 0),
    ) ?? []
  );
}

export function afterNames({ groups, plan }: AfterShown): GroupNames {
  const { family = "all" } = groups[0] ?? {};
  const labels = family === "compared" ? plan.compare.groups : groups.map(({ label }) => label);
  return groupNames({ by: fieldOf(family, plan.compare.by) ?? "", labels }, plan);
}

/** Above the panel of a group, after its name. */
export function groupFacts(group: AfterReturnGroup, plan: Plan): string {
  const { n, returned, ruptured_again } = group;
  const counts = `n = ${n}, ${returnedOf(returned)}, ${ruptured_again} of them ruptured again`;
  const landmark = group.landmarks.find(({ week }) => week === plan.main_landmark_weeks);
  if (landmark === undefined) return counts;
  const { back_and_well: share } = landmark;
  const interval = share.value === null ? "" : ` (${intervalWords(share, "share")})`;
  return `${counts}; back and not ruptured again at week ${plainNumber(landmark.week)}: ${valueWords(share, "share")}${interval}`;
}

/** Title, subtitle, text alternative and notes of the figure of the time after the return. */
export function afterText(shown: AfterShown): FigureText {
  const { groups, plan } = shown;
  const names = afterNames(shown);
  const family = groups[0]?.family ?? "all";
  const n = sumOf(groups.map((group) => group.n));
  const again = sumOf(groups.map(({ ruptured_again }) => ruptured_again));
  const interval = shortIntervalName(plan.confidence_level);
  return {
    id: `after-return-${family}`,
    title: `Did the return to ${milestoneWords[plan.question.milestone].name} last${familyPhrase({ family, held_equal: [] }, plan)}?`,
    subtitle: `${counted(n, "injury", "injuries")}, ${returnedOf(sumOf(groups.map(({ returned }) => returned)))}, ${again} of them ruptured again; points: back and not ruptured again, ${interval}`,
    description: [
      "Stacked shares of all injuries over time: those back and not ruptured again, those that ruptured again after the return, those not yet back and those that came to another end.",
      ...groups.map((group) => `${names.of(group.label)}: ${groupFacts(group, plan)}.`),
    ].join(" "),
    notes: [
      "Areas of one height are equal shares of all. A panel ends on the last day on which anybody is followed after the return.",
      ...names.notes,
      figureCaution,
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}
