import { labelOf } from "../schema/labels.js";

/** Two ways to speak of a group: after "injuries", and after "than". */
export interface GroupWords {
  /** "first treated with a ring", to follow "injuries". */
  readonly of: string;
  /** "with a ring", to follow "more were back". */
  readonly among: string;
}

type Words = Readonly<Record<string, string>>;

const treatment: Words = {
  tape: "with tape",
  ring: "with a ring",
  surgery: "with surgery",
  rest: "with rest",
  immobilisation: "with immobilisation",
  injection: "with an injection",
  rehabilitation: "with rehabilitation",
  other: "with another treatment",
  several: "with several treatments begun on one day",
  order_not_known: "with treatments of which the first is not known",
  not_read: "with a treatment that is recorded but not read",
};
const sex: Words = {
  female: "in female climbers",
  male: "in male climbers",
  other: "in climbers of another sex",
  not_stated: "in climbers whose sex is not stated",
};
const bowstringing: Words = {
  none: "without bowstringing",
  imaging_only: "with bowstringing on imaging only",
  visible: "with visible bowstringing",
};
const onset: Words = {
  pop: "after a sudden onset with a pop",
  sudden_without_pop: "after a sudden onset without a pop",
  gradual: "after a gradual onset",
  unknown: "with an unknown onset",
};

/** A label may be any text, also the name of something that every object has. */
const wordsFor = (label: string, known: Words): string | undefined =>
  Object.hasOwn(known, label) ? known[label] : undefined;

const both = (words: string | undefined): GroupWords | undefined =>
  words === undefined ? undefined : { of: words, among: words };

const byField: Readonly<Record<string, (label: string) => GroupWords | undefined>> = {
  first_treatment: (label) => {
    const words = wordsFor(label, treatment);
    return words === undefined ? undefined : { of: `first treated ${words}`, among: words };
  },
  grade: (label) => ({ of: `of grade ${labelOf(label)}`, among: `in grade ${labelOf(label)}` }),
  finger: (label) => ({ of: `of the ${label}`, among: `in the ${label}` }),
  hand: (label) => ({ of: `of the ${label} hand`, among: `in the ${label} hand` }),
  site_id: (label) => both(`at the site \u201c${label}\u201d`),
  sex: (label) => both(wordsFor(label, sex)),
  bowstringing: (label) => both(wordsFor(label, bowstringing)),
  onset: (label) => both(wordsFor(label, onset)),
};

/** A compared group in words; a group without words of its own is quoted as it is written. */
export function groupWords({ by, label }: { by: string; label: string }): GroupWords {
  const term = by === "site_id" ? label : label.replaceAll(" ", "_");
  const finger = term === "thumb" ? term : `${term} finger`;
  const bare = term.replace(/^grade_/i, "");
  const known = byField[by]?.(by === "finger" ? finger : by === "grade" ? bare : term);
  return known ?? { of: `in the group \u201c${label}\u201d`, among: `in the group \u201c${label}\u201d` };
}
