import type { ImagingRow } from "../schema/imaging.js";
import type { InjuryRow } from "../schema/injuries.js";
import { type SharedColumn, sharedFields } from "../schema/sheet-places.js";
import type { SingleSheetRow } from "../schema/single-sheet.js";
import type { TreatmentRow } from "../schema/treatments.js";
import type { SyntheticCohort } from "./draw.js";

/**
 * The same cohort as one sheet, one row an injury. The sheet has less room than the linked tables: a milestone has one date
 * and no precision (one known to lie between two visits is dated to the later visit), two treatments are kept (tape, ring
 * and surgery before others), the first and the last scan are kept, and there are no visits.
 */
export function singleSheetRows({ injuries, treatments, imaging }: SyntheticCohort): SingleSheetRow[] {
  const treatmentsOf = groupedByInjury(treatments);
  const imagingOf = groupedByInjury(imaging);
  return injuries.map((injury) => ({
    ...sharedCells(injury),
    person: injury.person_id,
    site: injury.site_id,
    injury_date: injury.injury_date,
    ...treatmentColumns(treatmentsOf.get(injury.injury_id) ?? []),
    ...scanColumns(imagingOf.get(injury.injury_id) ?? []),
    easy: dateOf(injury, "easy_climbing"),
    full: dateOf(injury, "full_climbing"),
    previous: dateOf(injury, "previous_level"),
    gave_up: injury.gave_up_date,
    new_rupture: injury.new_rupture_date,
    last_contact: injury.last_contact_date,
  }));
}

/** The cells that are fields of the injuries just as they are. */
const sharedCells = (injury: InjuryRow) =>
  Object.fromEntries(sharedFields.map(({ field, column }) => [column, injury[field]])) as Pick<
    SingleSheetRow,
    SharedColumn
  >;

function groupedByInjury<Row extends { readonly injury_id: string }>(
  rows: readonly Row[],
): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(row.injury_id);
    if (group) group.push(row);
    else groups.set(row.injury_id, [row]);
  }
  return groups;
}

const dateOf = (injury: InjuryRow, milestone: "easy_climbing" | "full_climbing" | "previous_level") =>
  injury[`${milestone}_date`] ?? injury[`${milestone}_not_after`];

const isMain = ({ treatment }: TreatmentRow): boolean =>
  treatment !== "rest" && treatment !== "rehabilitation";

function treatmentColumns(episodes: readonly TreatmentRow[]) {
  const [first, second] = [...episodes.filter(isMain), ...episodes.filter((episode) => !isMain(episode))];
  return {
    treatment: first?.treatment ?? null,
    treatment_start: first?.start_date ?? null,
    treatment_end: first?.end_date ?? null,
    second_treatment: second?.treatment ?? null,
    second_start: second?.start_date ?? null,
    second_end: second?.end_date ?? null,
  };
}

function scanColumns(readings: readonly ImagingRow[]) {
  const first = readings[0]?.date ?? null;
  const lastDate = readings.at(-1)?.date ?? null;
  const last = lastDate === first ? null : lastDate;
  const at = (date: string | null, position: ImagingRow["position"]) =>
    readings.find((reading) => reading.date === date && reading.position === position)?.distance_mm ?? null;
  return {
    distance_rest_first: at(first, "rest"),
    distance_loaded_first: at(first, "loaded"),
    date_first_scan: first,
    distance_rest_last: at(last, "rest"),
    distance_loaded_last: at(last, "loaded"),
    date_last_scan: last,
  };
}
