import { askAbout } from "../../schema/ask.js";
import { boundedOf } from "../../schema/cells/bound-text.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { blankRow } from "../../schema/field.js";
import { type ImagingRow, imagingRow } from "../../schema/imaging.js";
import type { SingleSheetRow } from "../../schema/single-sheet.js";
import type { RecordedTreatment } from "../../schema/terms.js";
import { type TreatmentRow, treatmentRow } from "../../schema/treatments.js";
import { groupsSharingKey } from "../rules/shared-keys.js";
import { type InjuryOfSheet, injuryOf } from "./unfold-injury.js";
import { injuryDay, isTooWide } from "./unfold-period.js";

/** A single sheet as linked tables; every part keeps the row of the sheet it came from. */
export interface UnfoldedSheet {
  readonly injuries: readonly InjuryOfSheet[];
  readonly treatments: readonly TypedRow<TreatmentRow>[];
  readonly imaging: readonly TypedRow<ImagingRow>[];
  readonly queries: readonly DataQuery[];
}

type SheetRow = TypedRow<SingleSheetRow>;

/**
 * Unfolds the single-sheet form into injuries, treatments and imaging.
 *
 * An injury is named after its person and its place among the person's injuries by date (`P09-1`, `P09-2`; within a
 * day by hand and finger), so that the order of the rows does not matter.
 * A treatment that cannot be read is one of which it is not known which; one without a start keeps its place instead; a distance without a day is left out with a query.
 */
export const unfoldSingleSheet = (rows: readonly SheetRow[]): UnfoldedSheet => ({
  ...unfoldRows(rows),
  queries: rows.flatMap(queriesAboutSheetRow),
});

/** The same without the queries, each part in the order of the rows. */
export function unfoldRows(rows: readonly SheetRow[]): Omit<UnfoldedSheet, "queries"> {
  const nameOf = injuryNamer(rows);
  const injuries = rows.map((row) => injuryOf(row, nameOf(row)));
  const parts = rows.map((row, i) => ({ row, injury: injuries[i]!.values.injury_id }));
  return {
    injuries,
    treatments: parts.flatMap(episodesOf),
    imaging: parts.flatMap(readingsOf),
  };
}

/** What unfolding a row asks. */
export const queriesAboutSheetRow = (row: SheetRow): readonly DataQuery[] => [
  ...queriesAboutInjuryDate(row),
  ...queriesAboutTreatments(row),
  ...queriesAboutScans(row),
];

/** Names for the injuries: only those of persons who have several need to be put in order. */
function injuryNamer(rows: readonly SheetRow[]): (row: SheetRow) => string {
  const places = new Map<SheetRow, number>();
  for (const ofPerson of groupsSharingKey(rows, ({ values }) => values.person)) {
    for (const [before, row] of inOrderOfInjury(ofPerson).entries()) places.set(row, before + 1);
  }
  return (row) => `${row.values.person}-${places.get(row) ?? 1}`;
}

function inOrderOfInjury(rows: readonly SheetRow[]): readonly SheetRow[] {
  const order = ({ values, row }: SheetRow) => [
    injuryDay(values.injury_date).injury_date,
    values.hand,
    values.finger,
    values.site ?? "",
    row,
  ];
  const sorted = rows.map((row) => ({ row, order: order(row) }));
  sorted.sort((one, other) => {
    const place = one.order.findIndex((part, i) => part !== other.order[i]);
    return place === -1 ? 0 : one.order[place]! < other.order[place]! ? -1 : 1;
  });
  return sorted.map(({ row }) => row);
}

interface Part {
  readonly row: SheetRow;
  readonly injury: string;
}

/** Fields of which the sheet says nothing, blank. */
const blankEpisode = blankRow(treatmentRow);
const blankReading = blankRow(imagingRow);

const episodeColumns = [
  { treatment: "treatment", start_date: "treatment_start", end_date: "treatment_end" },
  { treatment: "second_treatment", start_date: "second_start", end_date: "second_end" },
] as const;

function episodesOf({ row, injury }: Part): TypedRow<TreatmentRow>[] {
  const isPlaceNeeded = lacksStart(row) || isSecondAlone(row);
  return episodeColumns.flatMap((columnNames, before) => {
    const treatment = treatmentIn(row, columnNames.treatment);
    const start_date = row.values[columnNames.start_date];
    if (treatment === null) return [];
    const values: TreatmentRow = {
      ...blankEpisode,
      injury_id: injury,
      treatment,
      start_date,
      end_date: row.values[columnNames.end_date],
      order: isPlaceNeeded ? before + 1 : null,
    };
    return [{ file: row.file, row: row.row, values, columnNames }];
  });
}

/** A treatment that is written and cannot be read is one of which it is not known which: it may have been the first. */
const treatmentIn = (
  { values, unread = [] }: SheetRow,
  column: (typeof episodeColumns)[number]["treatment"],
): RecordedTreatment | null => values[column] ?? (unread.includes(column) ? "not_stated" : null);

const lacksStart = (row: SheetRow): boolean =>
  episodeColumns.some(
    ({ treatment, start_date }) => treatmentIn(row, treatment) !== null && row.values[start_date] === null,
  );

const isSecondAlone = (row: SheetRow): boolean =>
  treatmentIn(row, "treatment") === null && treatmentIn(row, "second_treatment") !== null;

const scanColumns = (
  [
    { distance_mm: "distance_rest_first", date: "date_first_scan", position: "rest" },
    { distance_mm: "distance_loaded_first", date: "date_first_scan", position: "loaded" },
    { distance_mm: "distance_rest_last", date: "date_last_scan", position: "rest" },
    { distance_mm: "distance_loaded_last", date: "date_last_scan", position: "loaded" },
  ] as const
).map((scan) => {
  const { distance_mm } = scan;
  const names = { distance_mm, bound: distance_mm, pulley: "pulleys" };
  // one of each for all readings: a large sheet has millions of them
  return { ...scan, dated: { ...names, date: scan.date }, undated: { ...names, date: "first_visit" } };
});

/** The day of a scan; a first scan without one is taken to be at the first visit, as the form says. */
const scanDay = ({ values }: SheetRow, column: "date_first_scan" | "date_last_scan") =>
  values[column] ?? (column === "date_first_scan" ? values.first_visit : null);

function readingsOf({ row, injury }: Part): TypedRow<ImagingRow>[] {
  return scanColumns.flatMap(({ distance_mm, date, position, dated, undated }) => {
    const [distance, day] = [row.values[distance_mm], scanDay(row, date)];
    if (distance === null || day === null) return [];
    const { value, bound } = boundedOf(distance);
    const values: ImagingRow = {
      ...blankReading,
      injury_id: injury,
      date: day,
      modality: "ultrasound",
      pulley: row.values.pulleys[0]!,
      position,
      distance_mm: value,
      bound: bound === "exact" ? null : bound,
    };
    const columnNames = row.values[date] === null ? undated : dated;
    return [{ file: row.file, row: row.row, values, columnNames }];
  });
}

function queriesAboutInjuryDate(row: SheetRow): DataQuery[] {
  const found = row.values.injury_date;
  if (!isTooWide(found)) return [];
  return [
    askAbout(row, { code: "injury-date-too-wide", severity: "set-aside", column: "injury_date", found }),
  ];
}

function queriesAboutTreatments(row: SheetRow): DataQuery[] {
  const unnamed = episodeColumns.flatMap(({ treatment, start_date, end_date }) => {
    const { [start_date]: start, [end_date]: end } = row.values;
    const date = start ?? end;
    if (treatmentIn(row, treatment) !== null || date === null) return [];
    const column = start === null ? end_date : start_date;
    return [askAbout(row, { code: "start-without-treatment", severity: "look-at", column, found: date })];
  });
  if (unnamed.length > 0 || !isSecondAlone(row)) return unnamed;
  const found = row.values.second_treatment;
  return [
    askAbout(row, {
      code: "second-treatment-alone",
      severity: "look-at",
      column: "second_treatment",
      found,
    }),
  ];
}

function queriesAboutScans(row: SheetRow): DataQuery[] {
  return scanColumns.flatMap(({ distance_mm, date }) => {
    const found = row.values[distance_mm];
    if (found === null || scanDay(row, date) !== null) return [];
    return [
      askAbout(row, { code: "distance-without-date", severity: "look-at", column: distance_mm, found }),
    ];
  });
}
