import { labelOf } from "../../schema/labels.js";

/** Two ways to speak of a group: after "injuries", and after "than". */
export interface GroupWords {
  /** "first treated with a ring", to follow "injuries". */
  readonly of: string;
  /** "with a ring", to follow "more were back". */
  readonly among: string;
}

const treatment: Readonly<Record<string, string>> = {
  tape: "with tape",
  ring: "with a ring",
  surgery: "with surgery",
  rest: "with rest",
  rehabilitation: "with rehabilitation",
  other: "with another treatment",
  several: "with several treatments begun on one day",
};
const sex: Readonly<Record<string, string>> = {
  female: "in female climbers",
  male: "in male climbers",
  other: "in climbers of another sex",
  not_stated: "in climbers whose sex is not stated",
};
const bowstringing: Readonly<Record<string, string>> = {
  none: "without bowstringing",
  imaging_only: "with bowstringing on imaging only",
  visible: "with visible bowstringing",
};
const onset: Readonly<Record<string, string>> = {
  pop: "after a sudden onset with a pop",
  sudden_without_pop: "after a sudden onset without a pop",
  gradual: "after a gradual onset",
  unknown: "with an unknown onset",
};

const both = (words: string | undefined): GroupWords | undefined =>
  words === undefined ? undefined : { of: words, among: words };

const byField: Readonly<Record<string, (label: string) => GroupWords | undefined>> = {
  first_treatment: (label) => {
    const words = treatment[label];
    return words === undefined ? undefined : { of: `first treated ${words}`, among: words };
  },
  grade: (label) => ({ of: `of grade ${labelOf(label)}`, among: `in grade ${labelOf(label)}` }),
  finger: (label) => ({ of: `of the ${label}`, among: `in the ${label}` }),
  hand: (label) => ({ of: `of the ${label} hand`, among: `in the ${label} hand` }),
  site_id: (label) => both(`at ${label}`),
  sex: (label) => both(sex[label]),
  bowstringing: (label) => both(bowstringing[label]),
  onset: (label) => both(onset[label]),
};

/** A compared group in words; a group without words of its own is quoted as it is written. */
export function groupWords({ by, label }: { by: string; label: string }): GroupWords {
  const term = by === "site_id" ? label : label.replaceAll(" ", "_");
  const finger = term === "thumb" ? term : `${term} finger`;
  const bare = term.replace(/^grade_/i, "");
  const known = byField[by]?.(by === "finger" ? finger : by === "grade" ? bare : term);
  return known ?? { of: `in the group \u201c${label}\u201d`, among: `in the group \u201c${label}\u201d` };
}
