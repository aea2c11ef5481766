import { fieldsOf } from "./field.js";
import { imagingRow } from "./imaging.js";
import { injuryRow } from "./injuries.js";
import { singleSheetRow } from "./single-sheet.js";
import { siteRow } from "./sites.js";
import { treatmentRow } from "./treatments.js";
import { visitRow } from "./visits.js";
const table = (row, about) => ({
    ...about,
    row: row,
    fields: fieldsOf(row),
});
const ofInjury = { refersTo: { column: "injury_id", table: "injuries" } };
/** Every table of the cohort, in reading order, and the single-sheet form. */
export const tables = {
    injuries: table(injuryRow, {
        name: "injuries",
        title: "One row an injured finger a time",
        key: ["injury_id"],
    }),
    treatments: table(treatmentRow, {
        name: "treatments",
        title: "One row an episode of treatment",
        key: [],
        ...ofInjury,
    }),
    imaging: table(imagingRow, {
        name: "imaging",
        title: "One row a reading of a distance",
        key: [],
        ...ofInjury,
    }),
    visits: table(visitRow, {
        name: "visits",
        title: "One row a contact",
        key: ["injury_id", "date"],
        ...ofInjury,
    }),
    sites: table(siteRow, { name: "sites", title: "One row a site and its definitions", key: ["site_id"] }),
    single_sheet: table(singleSheetRow, {
        name: "single_sheet",
        title: "One row an injury, everything in one sheet",
        key: [],
    }),
};
