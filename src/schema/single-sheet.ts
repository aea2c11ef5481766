import { z } from "zod";
import { optional, required } from "./field.js";
import { injuryRow } from "./injuries.js";
import * as terms from "./terms.js";

const distance = (description: string) =>
  optional.bounded({
    sharing: "never",
    description: `${description}; > or < before it where it is a bound`,
    example: "2.8",
    minimum: 0,
    maximum: 15,
    unit: "mm",
  });

const forms = "a month (2024-03), week (2024-W10) or span of days (2024-03-01/2024-03-10)";

/** The form for somebody with one spreadsheet: one row an injury, unfolded into the linked tables when read. */
export const singleSheetRow = z.strictObject({
  person: required.identifier({
    sharing: "never",
    description: "Pseudonym of the person; no initials, no birth date",
    example: "P09",
  }),
  site: optional.identifier({ sharing: "never", description: "Coded site", example: "site-a" }),
  sex: injuryRow.shape.sex,
  age: injuryRow.shape.age_at_injury,
  injury_date: required.period({
    sharing: "never",
    description: `Day of the injury; where the day is not known ${forms} within a month`,
    example: "2024-03-04",
  }),
  first_visit: injuryRow.shape.first_visit_date,
  hand: injuryRow.shape.hand,
  finger: injuryRow.shape.finger,
  pulleys: injuryRow.shape.pulleys,
  pulley_extents: injuryRow.shape.pulley_extents,
  grade: injuryRow.shape.grade,
  bowstringing: injuryRow.shape.bowstringing,
  treatment: optional.choice(terms.treatments, {
    sharing: "never",
    description: "First treatment",
    example: "tape",
  }),
  treatment_start: optional.date({
    sharing: "never",
    description: "First day of the first treatment",
    example: "2024-03-10",
  }),
  treatment_end: optional.date({
    sharing: "never",
    description: "Last day of the first treatment",
    example: "2024-03-24",
  }),
  second_treatment: optional.choice(terms.treatments, {
    sharing: "never",
    description: "Second treatment, if any",
    example: "ring",
  }),
  second_start: optional.date({
    sharing: "never",
    description: "First day of the second treatment",
    example: "2024-03-24",
  }),
  second_end: optional.date({
    sharing: "never",
    description: "Last day of the second treatment",
    example: "2024-05-12",
  }),
  distance_rest_first: distance("Tendon-phalanx distance of the first injured pulley at rest, first scan"),
  distance_loaded_first: distance("The same, loaded, first scan"),
  date_first_scan: optional.date({
    sharing: "never",
    description: "Day of the first scan; blank is read as the first visit",
    example: "2024-03-08",
  }),
  distance_rest_last: distance("The same pulley at rest, last scan"),
  distance_loaded_last: distance("The same pulley loaded, last scan"),
  date_last_scan: optional.date({
    sharing: "never",
    description: "Day of the last scan",
    example: "2024-06-10",
  }),
  easy: optional.period({
    sharing: "never",
    description: `Day protected climbing was first possible; where the day is not known ${forms}`,
    example: "2024-04-22",
    blankSays: "not reached yet",
  }),
  full: optional.period({
    sharing: "never",
    description: `Day of unrestricted climbing, all grips; where the day is not known ${forms}`,
    example: "2024-06-03",
    blankSays: "not reached yet",
  }),
  previous: optional.period({
    sharing: "never",
    description: `Day the level of before was reached again; where the day is not known ${forms}`,
    example: "2024-08-12",
    blankSays: "not reached yet",
  }),
  gave_up: optional.date({
    sharing: "never",
    description: "Day climbing was given up",
    example: "2024-08-15",
    blankSays: "not given up",
  }),
  new_rupture: optional.date({
    sharing: "never",
    description: "Day of a new rupture of the same finger",
    example: "2024-09-01",
    blankSays: "no new rupture",
  }),
  last_contact: required.date({
    sharing: "never",
    description:
      "Last day on which the person's state was known; with a blank milestone the row is censored there",
    example: "2024-11-18",
  }),
  end_status: injuryRow.shape.end_status,
  level_scale: injuryRow.shape.level_scale,
  level_before: injuryRow.shape.level_before,
  level_after: injuryRow.shape.level_after,
  notes: injuryRow.shape.notes,
});

export type SingleSheetRow = z.infer<typeof singleSheetRow>;
