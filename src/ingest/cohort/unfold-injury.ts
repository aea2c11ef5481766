import type { TypedRow } from "../../schema/cells.js";
import { blankRow } from "../../schema/field.js";
import { type InjuryRow, injuryRow } from "../../schema/injuries.js";
import { placedFields, type ReadFromSheet, sharedFields } from "../../schema/sheet-places.js";
import type { SingleSheetRow } from "../../schema/single-sheet.js";
import { injuryDay, milestoneOf } from "./unfold-period.js";

export type InjuryOfSheet = TypedRow<InjuryRow>;

/** What the sheet calls the fields of an injury, where the two differ. */
const columnNames: Readonly<Record<string, string>> = Object.fromEntries(
  placedFields.filter(({ field, column }) => field !== column).map(({ field, column }) => [field, column]),
);

/**
 * All columns of an injury, blank: rows that are filled copies of it have one shape. Rows put together from parts each
 * get a shape of their own, and all that is done with them takes ten times as long.
 */
const blankInjury = blankRow(injuryRow);

/** The injury in a row of the single sheet, under the name it is given. */
export function injuryOf(
  { file, row, values: sheet }: TypedRow<SingleSheetRow>,
  injury_id: string,
): InjuryOfSheet {
  const easy = milestoneOf(sheet.easy);
  const full = milestoneOf(sheet.full);
  const previous = milestoneOf(sheet.previous);
  const injured = injuryDay(sheet.injury_date);
  const values: Record<string, unknown> = { ...blankInjury };
  for (const { field, column } of sharedFields) values[field] = sheet[column];
  const ownCells: Pick<InjuryRow, ReadFromSheet> = {
    injury_id,
    person_id: sheet.person,
    site_id: sheet.site,
    injury_date: injured.injury_date,
    injury_date_precision: injured.injury_date_precision,
    last_contact_date: sheet.last_contact,
    easy_climbing_date: easy.date,
    easy_climbing_precision: easy.precision,
    easy_climbing_not_before: easy.not_before,
    easy_climbing_not_after: easy.not_after,
    full_climbing_date: full.date,
    full_climbing_precision: full.precision,
    full_climbing_not_before: full.not_before,
    full_climbing_not_after: full.not_after,
    previous_level_date: previous.date,
    previous_level_precision: previous.precision,
    previous_level_not_before: previous.not_before,
    previous_level_not_after: previous.not_after,
    new_rupture_date: sheet.new_rupture,
    gave_up_date: sheet.gave_up,
  };
  return { file, row, values: Object.assign(values, ownCells) as InjuryRow, columnNames };
}
