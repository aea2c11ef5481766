import { optional } from "../field.js";
import * as signs from "../header-signs.js";
import type { Concept } from "../languages/language.js";
import * as terms from "../terms.js";

interface AboutMilestone<Column extends string> {
  readonly meaning: string;
  readonly concept: Concept;
  /** The one column of the single sheet that the four are read from. */
  readonly column: Column;
}

/** The four columns that say when a milestone was reached, and how exactly that is known. */
export function milestoneFields<const M extends terms.Milestone, const Column extends string>(
  milestone: M,
  { meaning, concept, column }: AboutMilestone<Column>,
) {
  const all = { invented: "drawn", sheet: { from: column }, covariate: "no" } as const;
  const date = { ...all, when: "course", timed: true } as const;
  const fields = {
    date: optional.date({
      ...date,
      description: `Day on which ${meaning}; blank if not reached yet`,
      example: "2024-06-03",
      blankSays: "not reached yet",
      sharing: { move: "own" },
      precision: `${milestone}_precision`,
      header: signs.milestone(concept),
    }),
    precision: optional.choice(terms.returnPrecisions, {
      ...all,
      description: `How exactly the date of ${milestone} is known; blank is read as day; later where only not_before is known, and the record ends there`,
      example: "week",
      blankSays: "known to the day",
      cells: "own-words",
      sharing: "keep",
      header: "own-name",
    }),
    not_before: optional.date({
      ...date,
      description: `Last day known to be before ${milestone} (not yet at that visit)`,
      example: "2024-05-20",
      blankSays: "no such visit",
      sharing: { move: "contact" },
      header: "own-name",
    }),
    not_after: optional.date({
      ...date,
      description: `First day known to be at or after ${milestone} (reached by that visit)`,
      example: "2024-06-17",
      blankSays: "no such visit",
      sharing: { move: "contact" },
      header: "own-name",
    }),
  };
  return Object.fromEntries(
    Object.entries(fields).map(([part, field]) => [`${milestone}_${part}`, field]),
  ) as { [P in keyof typeof fields as `${M}_${P}`]: (typeof fields)[P] };
}
