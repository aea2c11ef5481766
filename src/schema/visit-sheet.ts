import { z } from "zod";
import { type Field, fieldsOf, optional, required } from "./field.js";
import * as signs from "./header-signs.js";
import type { HeaderSign } from "./said-of-field.js";
import { singleSheetRow } from "./single-sheet.js";
import type { Table } from "./tables.js";
import { visitRow } from "./visits.js";

/** The sheet itself is never copied nor drawn: both work on the linked tables. */
const ofSheet = { sharing: "never", invented: "blank" } as const;

const distance = (position: "rest" | "loaded", description: string) =>
  optional.bounded({
    ...ofSheet,
    description: `${description}; with > or < before it if it is a bound`,
    example: "2.8",
    minimum: 0,
    maximum: 15,
    unit: "mm",
    header: [
      { needs: ["distance", position], also: ["scan", "pulley", "reading", "visit"] },
      { needs: ["scan", position], also: ["pulley", "reading"], weight: 0.9 },
      ...(position === "loaded" ? ([{ needs: ["distance"], also: ["scan"], weight: 0.7 }] as const) : []),
    ],
  });

/** What a visit says of itself; the injury is named by the other columns of the row. */
const { injury_id: _, date: __, ...ofVisit } = visitRow.shape;

/** Columns of the single sheet that a visit says itself, day by day. */
const {
  distance_rest_first: _1,
  distance_loaded_first: _2,
  date_first_scan: _3,
  distance_rest_last: _4,
  distance_loaded_last: _5,
  date_last_scan: _6,
  level_after: _7,
  notes: _8,
  ...ofInjury
} = singleSheetRow.shape;

const dayOfVisit: readonly HeaderSign[] = [
  { needs: ["visit"], also: ["date"] },
  { needs: ["contact"], also: ["date"], weight: 0.8 },
  { needs: ["scan"], also: ["date"], weight: 0.7 },
  { needs: ["date"], weight: 0.6 },
];

/** A sheet with one row a visit: what it says of the injury, folded over its rows, and what it says of the visit. */
export const visitSheetRow = z.strictObject({
  ...ofInjury,
  person: required.identifier({
    ...ofSheet,
    description: "Pseudonym of the person, on the rows of all visits",
    example: "P09",
    onSeveralRows: true,
    header: signs.person,
  }),
  first_visit: optional.date({
    ...ofSheet,
    description: "Day of the first visit",
    example: "2024-03-08",
    when: "course",
    header: signs.firstVisit.slice(0, 2),
  }),
  last_contact: optional.date({
    ...ofSheet,
    description: "Last day on which the person's state was known; by default the day of the last visit",
    example: "2024-11-18",
    when: "last-contact",
    header: signs.lastContact,
  }),
  date: required.date({
    ...ofSheet,
    description: "Day of the visit",
    example: "2024-04-15",
    when: "course",
    header: dayOfVisit,
  }),
  distance_rest: distance("rest", "Tendon-phalanx distance of the first injured pulley at rest, on that day"),
  distance_loaded: distance("loaded", "Tendon-phalanx distance of the same pulley loaded, on that day"),
  ...ofVisit,
});

export type VisitSheetRow = z.infer<typeof visitSheetRow>;

/** The columns of a sheet with one row a visit. It is the single sheet in another form, and no table of its own. */
export const visitSheet: Table<VisitSheetRow> = {
  name: "single_sheet",
  title: "One row per visit, everything in one sheet",
  row: visitSheetRow as unknown as Table<VisitSheetRow>["row"],
  fields: fieldsOf(visitSheetRow as unknown as z.ZodObject),
  key: [],
  tellsApart: ["person", "site", "injury_date", "hand", "finger", "date"],
};

const visitOfSheetRow = z.strictObject({
  ...visitRow.shape,
  distance_rest: visitSheetRow.shape.distance_rest,
  distance_loaded: visitSheetRow.shape.distance_loaded,
});

export type VisitOfSheetRow = z.infer<typeof visitOfSheetRow>;

/** What such a sheet says of the visits, under the names of their injuries. */
export const visitOfSheet: Table<VisitOfSheetRow> = {
  ...visitSheet,
  row: visitOfSheetRow as unknown as Table<VisitOfSheetRow>["row"],
  fields: fieldsOf(visitOfSheetRow as unknown as z.ZodObject),
  key: ["injury_id", "date"],
  tellsApart: ["injury_id", "date", "kind"],
};

const namesOfVisit: ReadonlySet<string> = new Set([
  "distance_rest",
  "distance_loaded",
  "date",
  ...Object.keys(ofVisit),
]);

/** Whether a column of such a sheet is of the visit, and not of the injury. */
export const isOfVisit = ({ name }: Pick<Field, "name">): boolean => namesOfVisit.has(name);
