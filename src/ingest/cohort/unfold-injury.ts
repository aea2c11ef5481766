import type { TypedRow } from "../../schema/cells.js";
import type { InjuryRow } from "../../schema/injuries.js";
import type { SingleSheetRow } from "../../schema/single-sheet.js";
import { tables } from "../../schema/tables.js";
import { columnsOfMilestone, injuryDay, milestoneOf } from "./unfold-period.js";

export type InjuryOfSheet = TypedRow<InjuryRow>;

/** What the sheet calls the fields of an injury, where the two differ. */
const columnNames = {
  person_id: "person",
  site_id: "site",
  age_at_injury: "age",
  first_visit_date: "first_visit",
  injury_date_precision: "injury_date",
  ...columnsOfMilestone("easy_climbing", "easy"),
  ...columnsOfMilestone("full_climbing", "full"),
  ...columnsOfMilestone("previous_level", "previous"),
  gave_up_date: "gave_up",
  new_rupture_date: "new_rupture",
  last_contact_date: "last_contact",
} as const satisfies Partial<Record<keyof InjuryRow, keyof SingleSheetRow>>;

const notInTheSheet = {
  event_id: null,
  dominant_hand: null,
  grade_as_written: null,
  grade_source: null,
  onset: null,
  grip: null,
  mechanism: null,
  setting: null,
  prior_injury_same_finger: null,
  other_side_ever_injured: null,
  years_climbing: null,
  body_mass_kg: null,
  height_cm: null,
} as const satisfies Partial<InjuryRow>;

/**
 * All columns of an injury, blank: rows that are filled copies of it have one shape. Rows put together from parts each
 * get a shape of their own, and all that is done with them takes ten times as long.
 */
const shape = Object.fromEntries(tables.injuries.fields.map(({ name }) => [name, null]));

/** The injury in a row of the single sheet, under the name it is given. */
export function injuryOf(
  { file, row, values: sheet }: TypedRow<SingleSheetRow>,
  injury_id: string,
): InjuryOfSheet {
  const easy = milestoneOf(sheet.easy);
  const full = milestoneOf(sheet.full);
  const previous = milestoneOf(sheet.previous);
  const injured = injuryDay(sheet.injury_date);
  const values: InjuryRow = {
    ...(shape as object),
    ...notInTheSheet,
    injury_id,
    person_id: sheet.person,
    site_id: sheet.site,
    injury_date: injured.injury_date,
    injury_date_precision: injured.injury_date_precision,
    first_visit_date: sheet.first_visit,
    sex: sheet.sex,
    age_at_injury: sheet.age,
    hand: sheet.hand,
    finger: sheet.finger,
    pulleys: sheet.pulleys,
    pulley_extents: sheet.pulley_extents,
    grade: sheet.grade,
    bowstringing: sheet.bowstringing,
    level_scale: sheet.level_scale,
    level_before: sheet.level_before,
    level_after: sheet.level_after,
    last_contact_date: sheet.last_contact,
    end_status: sheet.end_status,
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
    notes: sheet.notes,
  };
  return { file, row, values, columnNames };
}
