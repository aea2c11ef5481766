import { dateOfDay, dayNumber } from "../schema/dates.js";
import type { Spoiling } from "./spoiling.js";
import { asDayFirst, fromDayFirst } from "./spoiling.js";

/** Cells that are well written and contradict each other. */
export const contradictionSpoilings: readonly Spoiling[] = [
  {
    column: "treatment",
    where: (cells) => cells.grade === "1",
    write: () => "surgery",
    wrong: "surgery for a strain",
    reader: "surgery-in-grade-1",
  },
  {
    column: "full",
    where: (cells) => cells.full !== "" && cells.easy !== "",
    write: ({ injury_date }) => daysAfter(fromDayFirst(injury_date), -20),
    wrong: "the return lies before the injury",
    reader: "event-before-injury",
  },
  {
    column: "previous",
    where: (cells) => cells.previous === "",
    write: ({ last_contact }) => daysAfter(fromDayFirst(last_contact, "/"), 30),
    wrong: "a milestone after the last contact",
    reader: "event-after-last-contact",
  },
  {
    column: "easy",
    where: (cells) =>
      cells.easy !== "" && cells.full !== "" && daysAfter(cells.full, 5) < lastContactOf(cells),
    write: ({ full }) => daysAfter(full, 5),
    wrong: "easy climbing after full climbing",
    reader: "milestones-out-of-order",
  },
  {
    column: "distance_rest_first",
    where: (cells) => cells.distance_loaded_first !== "" && Number(cells.distance_loaded_first) < 6,
    write: ({ distance_loaded_first }) => String(Math.round(Number(distance_loaded_first) * 10 + 8) / 10),
    wrong: "the distance at rest exceeds the loaded one: are they swapped?",
    reader: "loaded-below-rest",
  },
  {
    column: "pulleys",
    where: (cells) => cells.grade === "3",
    write: () => "A4",
    wrong: "grade 3 means a complete A2 rupture, and A2 is not named",
    reader: "grade-3-without-complete-a2",
  },
  {
    column: "finger",
    where: (cells) => cells.grade === "2",
    write: () => "thumb",
    wrong: "the grades do not apply to the thumb",
    reader: "thumb-with-grade",
  },
  {
    column: "age",
    write: () => "16",
    wrong: "under 17: a growth plate may be hurt instead",
    reader: "age-under-17",
  },
  {
    column: "treatment_start",
    where: (cells) => cells.treatment !== "" && cells.second_treatment === "",
    write: () => "",
    wrong: "a treatment without its start",
    reader: "treatment-without-start",
  },
  {
    column: "treatment_start",
    where: (cells) => cells.treatment === "ring",
    write: ({ injury_date }) => daysAfter(fromDayFirst(injury_date), -3),
    wrong: "a ring before the injury",
    reader: "event-before-injury",
  },
];

const daysAfter = (date: string, days: number): string => dateOfDay(dayNumber(date) + days);

const lastContactOf = ({ last_contact }: { readonly last_contact: string }): string =>
  fromDayFirst(last_contact, "/");

/** Whole rows that do not belong, added below the others. */
export const addedRows = {
  duplicate: {
    wrong:
      "the row of the same finger a second time; the person has a blank behind the name and the day is one later",
    reader: "possible-duplicate",
    write: (cells: Readonly<Record<string, string>>): Record<string, string> => ({
      ...cells,
      person: `${cells.person} `,
      injury_date: asDayFirst(daysAfter(fromDayFirst(cells.injury_date as string), 1)),
    }),
  },
  totals: {
    wrong: "a row of totals, no injury",
    reader: "value-missing",
    write: (count: number): Record<string, string> => ({ person: "Total", sex: String(count) }),
  },
} as const;
