import { csvText, tables } from "../../src/schema/index.js";
/** A few sound rows of every table, which the spoilt files begin as. */
const rows = {
    injuries: ["1", "2", "3"].map((n) => ({
        injury_id: `P0${n}-1`,
        person_id: `P0${n}`,
        injury_date: `2024-03-0${n}`,
        hand: "left",
        finger: "ring",
        pulleys: "A2",
        pulley_extents: "complete",
        grade: "3",
        full_climbing_date: "2024-06-03",
        last_contact_date: "2024-11-18",
    })),
    treatments: [{ injury_id: "P01-1", treatment: "ring", start_date: "2024-03-10", end_date: "2024-05-05" }],
    imaging: [
        {
            injury_id: "P01-1",
            date: "2024-03-08",
            modality: "ultrasound",
            pulley: "A2",
            position: "loaded",
            distance_mm: "3.4",
        },
    ],
    visits: [{ injury_id: "P01-1", date: "2024-04-15", full_climbing: "no" }],
    sites: [{ site_id: "site-a" }],
    single_sheet: ["1", "2", "3", "4"].map((n) => ({
        person: `P0${n}`,
        injury_date: `2024-03-0${n}`,
        hand: "right",
        finger: "middle",
        pulleys: "A2|A3",
        grade: "4a",
        treatment: "tape",
        treatment_start: "2024-03-12",
        distance_loaded_first: "3.1",
        date_first_scan: "2024-03-09",
        full: "2024-08",
        last_contact: "2024-11-18",
        notes: "said, and written",
    })),
};
/** The cells of a sound file, header first; the columns are those that the rows fill. */
export function soundCells(table) {
    const columns = tables[table].fields.map(({ name }) => name).filter((name) => name in rows[table][0]);
    return [columns, ...rows[table].map((row) => columns.map((column) => row[column] ?? ""))];
}
/** The same as CSV. */
export const soundText = (table) => {
    const [header, ...body] = soundCells(table);
    return csvText(header, body);
};
