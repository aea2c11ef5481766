import { describe, expect, it } from "vitest";
import { everyInjury } from "../../../src/cohort/eligible.js";
import { deriveCohort, deriveRecord, type Question } from "../../../src/cohort/index.js";
import { exclusionCodes } from "../../../src/cohort/record.js";
import { type History, linkedOf, questionOf } from "./history.js";

interface Worked extends History {
  readonly name: string;
  readonly asked?: Partial<Question>;
  readonly gives: string;
}

const cases: readonly Worked[] = [
  {
    name: "clock at the first visit, first visit blank though a visit row exists",
    asked: { clock: "first_visit" },
    visits: [{ date: "2024-04-15", full_climbing: "no" }],
    gives: "no-first-visit",
  },
  {
    name: "entry at the first visit, first visit blank",
    asked: { entry: "first_visit" },
    gives: "no-first-visit",
  },
  {
    name: "first visit after the close",
    injury: { first_visit_date: "2024-06-03" },
    asked: { clock: "first_visit", closedOn: "2024-05-31" },
    gives: "no-first-visit",
  },
  {
    name: "clock at treatment, none recorded",
    asked: { clock: "treatment_start" },
    gives: "no-treatment-to-start-the-clock",
  },
  {
    name: "clock at treatment, only rest, which is background",
    treatments: [{ treatment: "rest" }],
    asked: { clock: "treatment_start" },
    gives: "no-treatment-to-start-the-clock",
  },
  {
    name: "clock at treatment, a ring whose start is not recorded",
    treatments: [{ start_date: null }],
    asked: { clock: "treatment_start" },
    gives: "treatment-without-start",
  },
  {
    name: "surgery as a competing end, an operation after the tape on an unknown day",
    treatments: [
      { treatment: "tape", order: 1 },
      { treatment: "surgery", start_date: null, order: 2 },
    ],
    gives: "surgery-without-day",
  },
  {
    name: "back on 04-15, ring from 05-01: 42 - 58 = -16",
    injury: { full_climbing_date: "2024-04-15" },
    treatments: [{ start_date: "2024-05-01" }],
    asked: { clock: "treatment_start" },
    gives: "milestone-before-clock",
  },
  {
    name: "known to the week, 3 days either side of -4: its last day is -1",
    injury: { full_climbing_date: "2024-02-29", full_climbing_precision: "week" },
    gives: "milestone-before-clock",
  },
  {
    name: "last contact 04-15, ring from 05-01",
    injury: { last_contact_date: "2024-04-15" },
    treatments: [{ start_date: "2024-05-01" }],
    asked: { clock: "treatment_start" },
    gives: "no-follow-up",
  },
  {
    name: "injured after the close",
    asked: { closedOn: "2024-03-03" },
    gives: "no-follow-up",
  },
  {
    name: "gave up on 04-15 before the ring from 05-01",
    injury: { gave_up_date: "2024-04-15" },
    treatments: [{ start_date: "2024-05-01" }],
    asked: { clock: "treatment_start" },
    gives: "no-follow-up",
  },
  {
    name: "first known to be back after the close, never seen not to be: nothing known by the close",
    visits: [{ date: "2024-05-27", full_climbing: "yes" }],
    asked: { closedOn: "2024-04-30" },
    gives: "no-follow-up",
  },
  { name: "another site", asked: { who: { ...everyInjury, sites: ["site-b"] } }, gives: "site-not-asked" },
  {
    name: "no site, where some are asked about",
    injury: { site_id: null },
    asked: { who: { ...everyInjury, sites: ["site-a"] } },
    gives: "site-not-asked",
  },
  { name: "grade 3", asked: { who: { ...everyInjury, grades: ["1", "2"] } }, gives: "grade-not-asked" },
  {
    name: "grade not recorded, where some are asked about",
    injury: { grade: "unknown" },
    asked: { who: { ...everyInjury, grades: ["1", "2"] } },
    gives: "grade-not-known",
  },
  {
    name: "A2 and A3, where A4 is asked about",
    injury: { pulleys: ["A2", "A3"] },
    asked: { who: { ...everyInjury, pulleys: ["A4"] } },
    gives: "pulley-not-asked",
  },
  {
    name: "one pulley torn through and one in part is no partial tear",
    injury: { pulleys: ["A2", "A3"], pulley_extents: ["complete", "partial"] },
    asked: { who: { ...everyInjury, extents: ["strain", "partial"] } },
    gives: "extent-not-asked",
  },
  {
    name: "no extent recorded",
    asked: { who: { ...everyInjury, extents: ["complete"] } },
    gives: "extent-not-known",
  },
  {
    name: "a ring finger",
    asked: { who: { ...everyInjury, fingers: ["middle"] } },
    gives: "finger-not-asked",
  },
  {
    name: "17 years old, from 18 on asked about",
    injury: { age_at_injury: 17 },
    asked: { who: { ...everyInjury, age: { from: 18, to: 120 } } },
    gives: "age-not-asked",
  },
  {
    name: "no age recorded",
    injury: { age_at_injury: null },
    asked: { who: { ...everyInjury, age: { from: 18, to: 120 } } },
    gives: "age-not-known",
  },
  {
    name: "first seen after 15 days, 14 asked for",
    injury: { first_visit_date: "2024-03-19" },
    asked: { who: { ...everyInjury, firstVisitWithinDays: 14 } },
    gives: "first-visit-too-late",
  },
  {
    name: "no first visit recorded",
    asked: { who: { ...everyInjury, firstVisitWithinDays: 14 } },
    gives: "first-visit-not-known",
  },
  {
    name: "back on day 42, first visit on day 58",
    injury: { full_climbing_date: "2024-04-15", first_visit_date: "2024-05-01" },
    asked: { entry: "first_visit" },
    gives: "entered-after-its-end",
  },
  {
    name: "back on the day of the first visit: at risk on (42, 42], which holds no day",
    injury: { full_climbing_date: "2024-04-15", first_visit_date: "2024-04-15" },
    asked: { entry: "first_visit" },
    gives: "entered-after-its-end",
  },
  {
    name: "never seen after the first visit",
    injury: { first_visit_date: "2024-04-15", last_contact_date: "2024-04-15" },
    asked: { entry: "first_visit" },
    gives: "entered-after-its-end",
  },
];

describe("why an injury cannot answer, by hand", () => {
  it.each(cases)("$gives: $name", ({ asked, gives, ...history }) => {
    expect(deriveRecord(linkedOf(history), questionOf(asked))).toEqual({
      excluded: gives,
      injury: "P09-1",
      row: 2,
    });
  });

  it("every code has a history above", () => {
    expect(new Set(cases.map(({ gives }) => gives))).toEqual(new Set(exclusionCodes));
  });

  it("records and excluded together are the injuries, each in the order of its table", () => {
    const sites = ["site-b", "site-a", "site-b", "site-a"];
    const linked = sites.map((site_id, index) => linkedOf({ injury: { site_id, injury_id: `i${index}` } }));
    const { records, excluded } = deriveCohort(
      linked,
      questionOf({ who: { ...everyInjury, sites: ["site-a"] } }),
    );
    expect(records.map(({ injury }) => injury)).toEqual(["i1", "i3"]);
    expect(excluded.map(({ injury }) => injury)).toEqual(["i0", "i2"]);
  });
});
