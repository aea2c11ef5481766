import { everyInjury } from "../../../src/cohort/eligible.js";
import type { Question } from "../../../src/cohort/index.js";
import { linkTables } from "../../../src/cohort/index.js";
import type { LinkedInjury } from "../../../src/cohort/record.js";
import type { TypedRow } from "../../../src/schema/cells.js";
import { type ImagingRow, imagingRow } from "../../../src/schema/imaging.js";
import { type InjuryRow, injuryRow } from "../../../src/schema/injuries.js";
import type { PersonIds } from "../../../src/schema/person-key.js";
import type { SiteRow } from "../../../src/schema/sites.js";
import { type TreatmentRow, treatmentRow } from "../../../src/schema/treatments.js";
import { type VisitRow, visitRow } from "../../../src/schema/visits.js";

/** Invented histories of one finger: what is not written down is blank. */
export interface History {
  readonly injury?: Partial<InjuryRow>;
  readonly treatments?: readonly Partial<TreatmentRow>[];
  readonly imaging?: readonly Partial<ImagingRow>[];
  readonly visits?: readonly Partial<VisitRow>[];
}

const blank = (row: { readonly shape: object }) =>
  Object.fromEntries(Object.keys(row.shape).map((field) => [field, null]));

/** Injured on 2024-03-04 = day 0, last contact 2024-11-18 = day 259. */
export const injuryOf = (filled: Partial<InjuryRow> = {}): InjuryRow => ({
  ...(blank(injuryRow) as unknown as InjuryRow),
  injury_id: "P09-1",
  person_id: "P09",
  site_id: "site-a",
  injury_date: "2024-03-04",
  hand: "left",
  finger: "ring",
  pulleys: ["A2"],
  grade: "3",
  last_contact_date: "2024-11-18",
  ...filled,
});

export const treatmentOf = (filled: Partial<TreatmentRow>): TreatmentRow => ({
  ...(blank(treatmentRow) as unknown as TreatmentRow),
  injury_id: "P09-1",
  treatment: "ring",
  start_date: "2024-03-10",
  ...filled,
});

export const readingOf = (filled: Partial<ImagingRow>): ImagingRow => ({
  ...(blank(imagingRow) as unknown as ImagingRow),
  injury_id: "P09-1",
  date: "2024-03-08",
  modality: "ultrasound",
  pulley: "A2",
  position: "loaded",
  distance_mm: 3.4,
  ...filled,
});

export const visitOf = (filled: Partial<VisitRow>): VisitRow => ({
  ...(blank(visitRow) as unknown as VisitRow),
  injury_id: "P09-1",
  date: "2024-04-15",
  ...filled,
});

/** Rows as a file has them: the header is row 1. */
export const inFile = <Row>(file: string, rows: readonly Row[]): readonly TypedRow<Row>[] =>
  rows.map((values, index) => ({ file, row: index + 2, values }));

/** The five tables of several injuries, whose ids the child rows carry. */
export const tablesOf = (rows: {
  readonly injuries: readonly InjuryRow[];
  readonly treatments?: readonly TreatmentRow[];
  readonly imaging?: readonly ImagingRow[];
  readonly visits?: readonly VisitRow[];
  readonly sites?: readonly SiteRow[];
  readonly personIds?: PersonIds;
}) => ({
  injuries: inFile("injuries.csv", rows.injuries),
  treatments: inFile("treatments.csv", rows.treatments ?? []),
  imaging: inFile("imaging.csv", rows.imaging ?? []),
  visits: inFile("visits.csv", rows.visits ?? []),
  sites: inFile("sites.csv", rows.sites ?? []),
  personIds: rows.personIds ?? ("per_site" as const),
});

export function linkedOf({ injury, treatments = [], imaging = [], visits = [] }: History): LinkedInjury {
  const tables = tablesOf({
    injuries: [injuryOf(injury)],
    treatments: treatments.map(treatmentOf),
    imaging: imaging.map(readingOf),
    visits: visits.map(visitOf),
  });
  return linkTables(tables)[0]!;
}

/** Return to full climbing since the injury, everything that can compete competing. */
export const questionOf = (asked: Partial<Question> = {}): Question => ({
  milestone: "full_climbing",
  clock: "injury",
  entry: "clock",
  inexactDates: "midpoint",
  competingEnds: ["gave_up", "new_rupture", "surgery", "died"],
  treatmentsOfInterest: ["tape", "ring", "surgery"],
  treatmentWithoutStart: "left_out",
  who: everyInjury,
  closedOn: null,
  ...asked,
});
