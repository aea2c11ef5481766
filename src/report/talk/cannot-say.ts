import type { Count, Results } from "../../study/results.js";
import { clockWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import type { TalkGroup } from "./groups.js";

/** What the page cannot say, in short sentences. */
export function cannotSay(group: TalkGroup, results: Results): readonly string[] {
  return [
    "When your finger will be ready. These were other people, and no dot is you.",
    ...compared(group),
    ...fromTreatment(group, results),
    ...lost(group, results),
    ...meanings(results),
  ];
}

/** People in a group were not put there by lot. */
function compared({ features }: TalkGroup): readonly string[] {
  if (features.some(({ field }) => field === "first_treatment"))
    return [
      "Which treatment is better. Nobody drew lots for it, and the groups differ in other ways too. Do not compare this page with that of another treatment.",
    ];
  return ["Which treatment is better. It counts people, and compares nothing."];
}

/** Whoever was back before a treatment began never got it. */
function fromTreatment({ entry }: TalkGroup, { plan }: Results): readonly string[] {
  if (entry === "clock") return [];
  const day = entry === "treatment" ? "the treatment began" : "the first visit";
  return [
    `Anything of those who were back before ${day}. They are not counted; the weeks still begin with ${clockWords[plan.question.clock]}.`,
  ];
}

/** Who was lost, of whom. */
function lost({ features }: TalkGroup, { lost: found, plan, small_cells }: Results): readonly string[] {
  const [feature, ...more] = features;
  const own =
    feature === undefined || more.length > 0
      ? undefined
      : found.groupings
          .find(({ by }) => by === feature.field)
          ?.groups.find(({ label }) => label === feature.value);
  const { lost: gone, n } = own ?? found;
  if (gone === 0) return [];
  const whose = own === undefined && feature !== undefined ? "all " : "";
  return [
    `How people did who were not seen again: ${few(gone, small_cells.smallest)} of ${whose}${n} before ${weeks(plan.horizon_weeks)}. They are counted as if they had done like the others${plan.synthetic ? "" : "; some may not have"}.`,
  ];
}

/** A count that is left out need not be one of few. */
function few(count: Count, smallest: number): string {
  if (typeof count !== "number") return "some";
  return count >= smallest ? String(count) : `fewer than ${smallest}`;
}

/** Where sites mean different things, and where days are estimated. */
function meanings({ definitions, known_returns }: Results): readonly string[] {
  return [
    ...(definitions === null ? [] : ["What exactly “back” means: the clinics do not all mean the same."]),
    ...(known_returns.path === "spans"
      ? ["On which day people were back: most days are known only between two visits."]
      : []),
  ];
}
