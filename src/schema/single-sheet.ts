import { z } from "zod";
import { spellings } from "./cells/spellings.js";
import { optional, required } from "./field.js";
import * as signs from "./header-signs.js";
import { usualDistance } from "./limits.js";
import { columnsOf, type OwnColumn } from "./sheet-places.js";
import * as terms from "./terms.js";

/** The sheet itself is never copied nor drawn: both work on the linked tables. */
const ofSheet = { sharing: "never", invented: "blank" } as const;

const distance = (
  description: string,
  at: { readonly position: "rest" | "loaded"; readonly order: "first" | "last" },
) =>
  optional.bounded({
    ...ofSheet,
    description: `${description}; with > or < before it if it is a bound`,
    example: "2.8",
    minimum: 0,
    maximum: 15,
    unit: "mm",
    usualMedian: usualDistance,
    header: signs.distanceAt(at.position, at.order),
  });

const forms = "a month (2024-03), week (2024-W10) or span of days (2024-03-01/2024-03-10)";
const formsOfReturn = `${forms}; >2024-05-27 where all that is known is that it was later`;

const columns = {
  person: required.identifier({
    ...ofSheet,
    description: "Pseudonym of the person; no initials and no date of birth",
    example: "P09",
    header: signs.person,
  }),
  site: optional.identifier({
    ...ofSheet,
    description: "Coded site",
    example: "site-a",
    fewNames: true,
    header: signs.site,
  }),
  ...columnsOf("person"),
  injury_date: required.period({
    ...ofSheet,
    description: `Day of the injury; if the day is not known, ${forms} within a month`,
    example: "2024-03-04",
    when: "injury",
    header: signs.injuryDate,
  }),
  ...columnsOf("injury"),
  treatment: optional.choice(terms.recordedTreatments, {
    ...ofSheet,
    description: "First treatment; not_stated where one was given and it is not known which",
    example: "tape",
    cells: "treatment",
    spellings: spellings.treatment,
    header: [{ needs: ["treatment"], also: ["first", "kind"] }],
  }),
  treatment_start: optional.date({
    ...ofSheet,
    description: "First day of the first treatment",
    example: "2024-03-10",
    when: "course",
    header: [
      { needs: ["treatment", "start"], also: ["first", "date"] },
      { needs: ["treatment", "date"], also: ["first"], weight: 0.85 },
      { needs: ["start"], also: ["first", "date"], weight: 0.75 },
    ],
  }),
  treatment_end: optional.date({
    ...ofSheet,
    description: "Last day of the first treatment",
    example: "2024-03-24",
    when: "end",
    header: [
      { needs: ["treatment", "end"], also: ["first", "date"] },
      { needs: ["end"], also: ["first", "date"], weight: 0.75 },
    ],
  }),
  second_treatment: optional.choice(terms.recordedTreatments, {
    ...ofSheet,
    description: "Second treatment, if any",
    example: "ring",
    cells: "treatment",
    spellings: spellings.treatment,
    header: [{ needs: ["second", "treatment"], also: ["kind"] }],
  }),
  second_start: optional.date({
    ...ofSheet,
    description: "First day of the second treatment",
    example: "2024-03-24",
    when: "course",
    header: [
      { needs: ["second", "treatment", "start"], also: ["date"] },
      { needs: ["second", "start"], also: ["date"], weight: 0.95 },
    ],
  }),
  second_end: optional.date({
    ...ofSheet,
    description: "Last day of the second treatment",
    example: "2024-05-12",
    when: "end",
    header: [
      { needs: ["second", "treatment", "end"], also: ["date"] },
      { needs: ["second", "end"], also: ["date"], weight: 0.95 },
    ],
  }),
  distance_rest_first: distance("Tendon-phalanx distance of the first injured pulley at rest, first scan", {
    position: "rest",
    order: "first",
  }),
  distance_loaded_first: distance("Tendon-phalanx distance of the same pulley loaded, first scan", {
    position: "loaded",
    order: "first",
  }),
  date_first_scan: optional.date({
    ...ofSheet,
    description: "Day of the first scan; blank is read as the first visit",
    example: "2024-03-08",
    when: "course",
    header: [
      { needs: ["scan", "first"], also: ["date", "distance"] },
      { needs: ["distance", "first", "date"] },
      { needs: ["scan"], also: ["date"], weight: 0.85 },
    ],
  }),
  distance_rest_last: distance("Tendon-phalanx distance of the same pulley at rest, last scan", {
    position: "rest",
    order: "last",
  }),
  distance_loaded_last: distance("Tendon-phalanx distance of the same pulley loaded, last scan", {
    position: "loaded",
    order: "last",
  }),
  date_last_scan: optional.date({
    ...ofSheet,
    description: "Day of the last scan",
    example: "2024-06-10",
    when: "course",
    header: [
      { needs: ["scan", "last"], also: ["date", "distance"] },
      { needs: ["scan", "second"], also: ["date", "distance"] },
      { needs: ["distance", "last", "date"] },
      { needs: ["distance", "second", "date"] },
    ],
  }),
  easy: optional.period({
    ...ofSheet,
    description: `Day protected climbing was first possible; if the day is not known, ${formsOfReturn}`,
    example: "2024-04-22",
    blankSays: "not reached yet",
    when: "course",
    header: signs.milestone("easy"),
  }),
  full: optional.period({
    ...ofSheet,
    description: `Day of unrestricted climbing, all grips; if the day is not known, ${formsOfReturn}`,
    example: "2024-06-03",
    blankSays: "not reached yet",
    when: "course",
    header: signs.milestone("full"),
  }),
  previous: optional.period({
    ...ofSheet,
    description: `Day the level before the injury was reached again; if the day is not known, ${formsOfReturn}`,
    example: "2024-08-12",
    blankSays: "not reached yet",
    when: "course",
    header: signs.milestone("previous"),
  }),
  gave_up: optional.date({
    ...ofSheet,
    description: "Day climbing was given up",
    example: "2024-08-15",
    blankSays: "not given up",
    when: "course",
    header: signs.gaveUp,
  }),
  new_rupture: optional.date({
    ...ofSheet,
    description: "Day of a new rupture of the same finger",
    example: "2024-09-01",
    blankSays: "no new rupture",
    when: "course",
    header: [signs.newRupture, { needs: ["second", "injury"], also: ["date"], weight: 0.8 }],
  }),
  last_contact: required.date({
    ...ofSheet,
    description:
      "Last day on which the person's state was known; if a milestone is blank, the row is censored on this day",
    example: "2024-11-18",
    when: "last-contact",
    header: signs.lastContact,
  }),
  ...columnsOf("end"),
  ...columnsOf("levels"),
  ...columnsOf("notes"),
} as const satisfies Readonly<Record<OwnColumn, unknown>> & Readonly<Record<string, unknown>>;

/** The form for somebody with one spreadsheet: one row an injury, unfolded into the linked tables when read. */
export const singleSheetRow = z.strictObject(columns);

export type SingleSheetRow = z.infer<typeof singleSheetRow>;
