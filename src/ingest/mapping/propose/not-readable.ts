import { monthNamed } from "../../../schema/cells/dates/month-names.js";
import { counted } from "../../../schema/counted.js";
import { plainLetters } from "../../../schema/plain-letters.js";
import type { Undecided } from "../mapping.js";
import { meaningKey, notUsedAnswer } from "../meaning.js";
import { type Profile, speaksOf } from "./profile.js";

/** Columns of a form that no rule reads, with the one question about all of them. */
export interface NotReadable {
  readonly columns: readonly string[];
  readonly question: Undecided;
}

const emptySheet = '"pulley-outcomes begin" writes an empty sheet to copy them into';

/**
 * Columns that hold what is needed in a form that no rule reads: a calendar with a column for each week or day, and cells of
 * sentences. They are never passed over in silence: the question says how the sheet must be changed, and they are left out
 * only when a person says so.
 */
export function notReadable(profiles: readonly Profile[]): readonly NotReadable[] {
  const dated = profiles.filter(({ dates, distinct }) => dates.size * 2 > distinct.size);
  // remarks beside the dates that are needed may be remarks
  const mayBeNotes = (profile: Profile) => dated.length >= leastDated && speaksOf(profile, ["notes"]);
  const diary = profiles.filter((profile) => holdsDiary(profile) && !mayBeNotes(profile));
  return [
    ...calendarsIn(profiles).map((columns) => ({
      columns: columns.map(({ name }) => name),
      question: aboutCalendar(columns),
    })),
    ...(diary.length === 0 ? [] : [{ columns: diary.map(({ name }) => name), question: aboutDiary(diary) }]),
  ];
}

/** So many columns of one name with a number or a date in it are a calendar. */
const leastColumns = 6;
/** A cell of a calendar is a letter or two, and there are few of them. */
const longestState = 3;
const mostStates = 15;

function calendarsIn(profiles: readonly Profile[]): readonly (readonly Profile[])[] {
  const byStem = new Map<string, Profile[]>();
  for (const profile of profiles) {
    const stem = stemOf(profile.name);
    if (stem.includes("#")) byStem.set(stem, [...(byStem.get(stem) ?? []), profile]);
  }
  return [...byStem.values()].filter((columns) => columns.length >= leastColumns && holdStates(columns));
}

/** A name without its numbers and months: "KW 3" and "KW 4" are alike then, and so are "15.01." and "22.01.". */
const stemOf = (name: string): string =>
  plainLetters(name)
    .replaceAll(/\p{L}+/gu, (word) => (word.length > 2 && monthNamed(word) !== null ? "#" : word))
    .replaceAll(/\d+/g, "#");

function holdStates(columns: readonly Profile[]): boolean {
  const filled = columns.flatMap((column) => column.filled);
  return (
    filled.length > 0 &&
    filled.every((cell) => cell.length <= longestState) &&
    new Set(filled).size <= mostStates
  );
}

function aboutCalendar(columns: readonly Profile[]): Undecided {
  const times = new Map<string, number>();
  for (const { distinct } of columns)
    for (const [cell, n] of distinct) times.set(cell, (times.get(cell) ?? 0) + n);
  const filled = [...times.values()].reduce((sum, n) => sum + n, 0);
  const states = [...times].map(([cell, n]) => `${cell} ${n}`).join(", ");
  const [first, last] = [columns[0]!.name, columns.at(-1)!.name];
  return {
    question: `The ${counted(columns.length, "column", "columns")} from "${first}" to "${last}" are a calendar with a sign for each time (${states}), which is not read. To use it, write into columns of their own when each state began: treatment and treatment_start, easy, full, and last_contact for the last time that is filled; a week may be written as 2024-W10; ${emptySheet}. Leave the calendar out?`,
    decides: columns.map(({ name }) => [meaningKey, name]),
    choices: {
      [notUsedAnswer]: `leave it out: ${counted(filled, "filled cell is", "filled cells are")} not used, and no treatment and no return is read from them`,
    },
  };
}

/** The day of the injury and the last contact. */
const leastDated = 2;
/** A cell of sentences has so many words. */
const leastWords = 8;
const dateWithin = /\b\d{1,2}[./-]\d{1,2}(?:[./-]|\b)/;

function holdsDiary({ filled }: Profile): boolean {
  const prose = filled.filter((cell) => cell.split(/\s+/).length >= leastWords);
  const dated = prose.filter((cell) => dateWithin.test(cell));
  return filled.length > 0 && prose.length * 2 >= filled.length && dated.length * 2 >= prose.length;
}

function aboutDiary(columns: readonly Profile[]): Undecided {
  const names = columns.map(({ name }) => `"${name}"`).join(", ");
  const filled = columns.reduce((sum, column) => sum + column.filled.length, 0);
  const them = columns.length === 1 ? "it" : "them";
  return {
    question: `${columns.length === 1 ? `The column ${names} holds` : `The columns ${names} hold`} sentences with dates, which are not read. To use what they say, write it into the sheet: one row for each visit with its date and whether climbing was full, or one row for each injury with columns of their own for the day of the injury, the treatment and its start, the return and the last contact; ${emptySheet}. Leave ${them} out?`,
    decides: columns.map(({ name }) => [meaningKey, name]),
    choices: {
      [notUsedAnswer]: `leave ${them} out: ${counted(filled, "filled cell is", "filled cells are")} not used`,
      ...(columns.length === 1 ? { notes: "keep it as notes, which are never analysed" } : {}),
    },
  };
}
