import { columnsOfMilestone, injuryDay, milestoneFrom } from "./unfold-period.js";
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
};
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
};
/** The injury in a row of the single sheet, under the name it is given. */
export function injuryOf({ file, row, values: sheet }, injury_id) {
    const values = {
        ...notInTheSheet,
        injury_id,
        person_id: sheet.person,
        site_id: sheet.site,
        ...injuryDay(sheet.injury_date),
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
        ...milestoneFrom("easy_climbing", sheet.easy),
        ...milestoneFrom("full_climbing", sheet.full),
        ...milestoneFrom("previous_level", sheet.previous),
        new_rupture_date: sheet.new_rupture,
        gave_up_date: sheet.gave_up,
        notes: sheet.notes,
    };
    return { file, row, values, columnNames };
}
