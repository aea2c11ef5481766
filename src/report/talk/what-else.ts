import type { competingEnds } from "../../schema/terms.js";
import type { AfterReturnGroup, Count, Results } from "../../study/results.js";
import { weeks } from "../../words/times.js";
import { dotsInRow, mostDots, nearestDots } from "./dots.js";
import type { TalkGroup } from "./groups.js";

/** Something else that happened, to how many of how many. */
export interface Happening {
  readonly what: string;
  /** "about 5 of 20". */
  readonly ofTwenty: string;
  /** "13 of 54". */
  readonly counted: string;
}

/** When it happened, and what. */
export interface Happenings {
  readonly when: string;
  readonly those: readonly Happening[];
}

/** What else happened: of the group and, where the results hold it of nobody else, of all. */
export interface WhatElse {
  readonly ofGroup: readonly Happenings[];
  readonly ofAll: readonly Happenings[];
  readonly notes: readonly string[];
}

/** Something that can happen, before how many it happened to is put into words. */
interface Event {
  readonly what: string;
  readonly part: Count;
  readonly whole: Count;
}

const ends: Readonly<Record<Exclude<(typeof competingEnds)[number], "died">, string>> = {
  gave_up: "Gave up climbing",
  new_rupture: "Tore a pulley again",
  surgery: "Were operated on",
};

/**
 * What else happened, of those followed: other ends than a return, who was not back when last seen, and what came after the
 * return. A page leaves the clinic in somebody's hand, so that a count of few people is not written on it.
 */
export function whatElse(group: TalkGroup, results: Results): WhatElse {
  const { smallest } = results.small_cells;
  const said = (when: string, events: readonly Event[]): readonly Happenings[] => {
    const those = events.flatMap((event) => happening(event, smallest));
    return those.length === 0 ? [] : [{ when, those }];
  };
  const groups = results.after_return?.groups ?? [];
  const own = groups.find((one) => isAbout(one, group));
  const after = own ?? groups.find(({ family }) => family === "all");
  const before = said("Before being back", beforeReturn(group, results));
  const later =
    after === undefined
      ? []
      : [...said("After being back", afterReturn(after)), ...said("At any time", atAnyTime(after))];
  const [ofGroup, ofAll] = own === undefined ? [before, later] : [[...before, ...later], []];
  const hasNone = [...ofGroup, ...ofAll].some(({ those }) => those.some(({ ofTwenty }) => ofTwenty === none));
  return {
    ofGroup,
    ofAll,
    notes: [
      ...(after === undefined ? [] : followedFor(after)),
      ...(hasNone ? ["None seen does not mean that it cannot happen."] : []),
    ],
  };
}

function beforeReturn({ n, ends: found }: TalkGroup, { plan }: Results): readonly Event[] {
  if (found === null) return [];
  const { returned, competing, others } = found;
  const happened = (Object.keys(ends) as (keyof typeof ends)[])
    .filter((end) => plan.question.competing_ends.includes(end))
    .map((end) => ({ what: ends[end], part: others.find((one) => one.end === end)?.n ?? 0, whole: n }));
  if (typeof n !== "number" || typeof returned !== "number" || typeof competing !== "number") return happened;
  return [...happened, { what: "Not back when last seen", part: n - returned - competing, whole: n }];
}

function afterReturn({ returned, ruptured_again, operated, level }: AfterReturnGroup): readonly Event[] {
  const levels = [level.below, level.same, level.above].filter((one) => typeof one === "number");
  const known = levels.length === 3 ? levels.reduce((sum, one) => sum + one, 0) : 0;
  return [
    { what: "Tore a pulley again", part: ruptured_again, whole: returned },
    { what: "Were operated on", part: operated, whole: returned },
    { what: "Climbed less hard than before the injury", part: level.below, whole: known },
  ];
}

const atAnyTime = ({ complications }: AfterReturnGroup): readonly Event[] => [
  { what: "Had a complication", part: complications.found, whole: complications.asked },
];

const isAbout = ({ family, label }: AfterReturnGroup, { features }: TalkGroup): boolean =>
  features.length === 0
    ? family === "all"
    : features.length === 1 &&
      features[0]!.field !== "grade" &&
      family === "compared" &&
      label === features[0]!.value;

const weeksInMonth = 365.25 / 12 / 7;

/** So that a small number is not taken for a promise. */
function followedFor({ person_months, returned }: AfterReturnGroup): readonly string[] {
  if (person_months === null || typeof returned !== "number" || returned === 0) return [];
  const each = Math.round((person_months / returned) * weeksInMonth);
  return [`After being back, people were followed for about ${weeks(each)} on average.`];
}

const none = "none";

/** Nothing is said of fewer people than a row has dots. */
function happening({ what, part, whole }: Event, smallest: number): readonly Happening[] {
  if (typeof whole !== "number" || whole < dotsInRow) return [];
  if (part === 0) return [{ what, ofTwenty: none, counted: `of ${whole}` }];
  if (typeof part !== "number" || part < smallest)
    return [
      {
        what,
        ofTwenty: `at most ${mostDots(smallest - 1, whole)} of ${dotsInRow}`,
        counted: `fewer than ${smallest} of ${whole}`,
      },
    ];
  const near = nearestDots(part, whole);
  const ofTwenty = near === 0 ? `fewer than 1 of ${dotsInRow}` : `about ${near} of ${dotsInRow}`;
  return [{ what, ofTwenty, counted: `${part} of ${whole}` }];
}
