import { dateOfDay, dayNumber } from "../schema/dates.js";
import type { Expected, SheetCells, Spoiling } from "./spoiling.js";

const daysAfter = (date: string, days: number): string => dateOfDay(dayNumber(date) + days);

/** Cells that are well written and contradict each other. */
export const contradictionSpoilings: readonly Spoiling[] = [
  {
    column: "full",
    where: ({ full, end_status }) => full === "" && end_status === "lost",
    write: ({ last_contact }) => daysAfter(last_contact, 5),
    wrong: "a milestone after the last contact",
    reader: "event-after-last-contact",
  },
  {
    column: "treatment",
    where: ({ grade, treatment }) => grade === "1" && treatment === "tape",
    write: () => "surgery",
    wrong: "surgery for a strain",
    reader: "surgery-in-grade-1",
  },
  {
    column: "easy",
    where: ({ easy, full, last_contact }) => easy !== "" && full !== "" && daysAfter(full, 5) < last_contact,
    write: ({ full }) => daysAfter(full, 5),
    wrong: "easy climbing after full climbing",
    reader: "milestones-out-of-order",
  },
  {
    column: "easy",
    where: ({ easy }) => easy !== "",
    write: ({ injury_date }) => daysAfter(injury_date, -20),
    wrong: "the return is before the injury",
    reader: "event-before-injury",
  },
  {
    column: "distance_rest_first",
    where: ({ distance_loaded_first }) => distance_loaded_first !== "" && Number(distance_loaded_first) < 6,
    write: ({ distance_loaded_first }) => String(Math.round(Number(distance_loaded_first) * 10 + 8) / 10),
    wrong: "the distance at rest exceeds the loaded one: are they swapped?",
    reader: "loaded-below-rest",
  },
  {
    column: "pulleys",
    where: ({ grade }) => grade === "3",
    write: () => "A4",
    wrong: "grade 3 means a complete A2 rupture, and A2 is not named",
    reader: "grade-3-without-complete-a2",
  },
  {
    column: "finger",
    where: ({ grade }) => grade === "2",
    write: () => "thumb",
    wrong: "the grades do not apply to the thumb",
    reader: "thumb-with-grade",
  },
  {
    column: "age",
    write: () => "16",
    wrong: "under 17: a growth plate may be injured instead",
    reader: "age-under-17",
  },
  {
    column: "treatment_start",
    where: ({ treatment, second_treatment }) => treatment !== "" && second_treatment === "",
    write: () => "",
    wrong: "a treatment without a start date",
    reader: "treatment-without-start",
  },
  {
    column: "treatment_start",
    where: ({ treatment }) => treatment === "ring",
    write: ({ injury_date }) => daysAfter(injury_date, -3),
    wrong: "a ring before the injury",
    reader: "event-before-injury",
  },
];

/** A whole row that does not belong. */
interface AddedRow {
  readonly wrong: string;
  readonly reader: Expected;
  readonly write: (cells: SheetCells) => Record<string, string>;
}

/** Rows added below the others. */
export const addedRows: readonly AddedRow[] = [
  {
    wrong: "the same finger a second time, a day later, with a space after the name of the person",
    reader: "possible-duplicate",
    write: (cells) => ({
      ...cells,
      person: `${cells.person} `,
      injury_date: daysAfter(cells.injury_date, 1),
    }),
  },
  {
    wrong: "a row of totals, not an injury",
    reader: "value-missing",
    write: () => ({ person: "Total", notes: "all rows above" }),
  },
];
