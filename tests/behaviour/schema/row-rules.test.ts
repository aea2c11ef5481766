import { describe, expect, it } from "vitest";
import { rowCodes } from "../../../src/schema/data-query.js";
import {
  checkRow,
  type QueryCode,
  type RowRule,
  rowRules,
  type Table,
  tables,
  typeRows,
} from "../../../src/schema/index.js";
import { plainRows } from "../ingest/sheets.js";

type Name = "injuries" | "treatments" | "imaging" | "visits";
type Cells = Readonly<Record<string, string>>;

/** The queries of the row rules about a plain row with some cells changed. */
function queriesAbout(table: Name, change: Cells) {
  const sorted = typeRows(
    [{ file: `${table}.csv`, row: 2, cells: { ...plainRows[table], ...change } }],
    tables[table] as Table<unknown>,
  );
  expect(sorted.queries, "the cells themselves can be read").toEqual([]);
  const rules = rowRules[table] as readonly RowRule<unknown>[];
  return checkRow(sorted.typed[0]!, { rules, context: { closedOn: "2025-06-30" } });
}

const broken: readonly (readonly [Name, QueryCode, "set-aside" | "look-at", Cells])[] = [
  ["injuries", "event-before-injury", "set-aside", { full_climbing_date: "2024-03-03" }],
  ["injuries", "event-before-injury", "set-aside", { first_visit_date: "2024-03-03" }],
  ["injuries", "event-before-injury", "set-aside", { last_contact_date: "2023-03-03" }],
  [
    "injuries",
    "event-before-injury",
    "set-aside",
    { injury_date_precision: "week", full_climbing_date: "2024-02-26" },
  ],
  ["injuries", "event-after-last-contact", "look-at", { full_climbing_date: "2024-11-19" }],
  ["injuries", "date-in-future", "set-aside", { last_contact_date: "2025-07-01" }],
  [
    "injuries",
    "milestones-out-of-order",
    "look-at",
    { easy_climbing_date: "2024-06-03", full_climbing_date: "2024-06-02" },
  ],
  [
    "injuries",
    "milestones-out-of-order",
    "look-at",
    { easy_climbing_date: "2024-06-03", previous_level_date: "2024-06-02" },
  ],
  [
    "injuries",
    "interval-inside-out",
    "set-aside",
    { full_climbing_not_before: "2024-06-03", full_climbing_not_after: "2024-06-02" },
  ],
  [
    "injuries",
    "interval-inside-out",
    "set-aside",
    { full_climbing_date: "2024-06-01", full_climbing_not_before: "2024-06-03" },
  ],
  ["injuries", "later-without-bound", "set-aside", { full_climbing_precision: "later" }],
  [
    "injuries",
    "interval-over-26-weeks",
    "look-at",
    { full_climbing_not_before: "2024-03-10", full_climbing_not_after: "2024-09-09" },
  ],
  [
    "injuries",
    "milestone-after-giving-up",
    "look-at",
    { gave_up_date: "2024-06-01", full_climbing_date: "2024-06-02" },
  ],
  [
    "injuries",
    "milestone-after-new-rupture",
    "look-at",
    { new_rupture_date: "2024-06-01", full_climbing_date: "2024-06-02" },
  ],
  ["injuries", "extents-not-matching-pulleys", "look-at", { pulleys: "A2|A3" }],
  ["injuries", "pulley-twice", "look-at", { pulleys: "A2|A2", pulley_extents: "" }],
  ["injuries", "grade-3-without-complete-a2", "look-at", { pulley_extents: "partial" }],
  ["injuries", "grade-3-without-complete-a2", "look-at", { pulleys: "A4", pulley_extents: "" }],
  [
    "injuries",
    "grade-3-with-second-complete",
    "look-at",
    { pulleys: "A2|A3", pulley_extents: "complete|complete" },
  ],
  ["injuries", "grade-2-with-complete-a2", "look-at", { grade: "2" }],
  ["injuries", "grade-1-with-tear", "look-at", { grade: "1", pulley_extents: "partial" }],
  [
    "injuries",
    "grade-4a-visible-bowstringing",
    "look-at",
    { grade: "4a", pulleys: "A2|A3", pulley_extents: "", bowstringing: "visible" },
  ],
  [
    "injuries",
    "grade-4b-without-bowstringing",
    "look-at",
    { grade: "4b", pulleys: "A2|A3", pulley_extents: "", bowstringing: "none" },
  ],
  ["injuries", "thumb-with-grade", "look-at", { finger: "thumb" }],
  ["injuries", "minor-pulley-alone", "look-at", { grade: "2", pulleys: "A5", pulley_extents: "" }],
  ["injuries", "years-climbing-exceed-age", "look-at", { age_at_injury: "20", years_climbing: "17.5" }],
  ["injuries", "level-not-on-scale", "look-at", { level_scale: "french", level_before: "5.12a" }],
  [
    "injuries",
    "level-below-previous",
    "look-at",
    { level_scale: "french", level_before: "7a", level_after: "6c+", previous_level_date: "2024-08-12" },
  ],
  [
    "injuries",
    "return-unusually-late",
    "look-at",
    { grade: "1", pulley_extents: "strain", full_climbing_date: "2024-09-03" },
  ],
  ["injuries", "return-unusually-early", "look-at", { grade: "4b", full_climbing_date: "2024-04-28" }],
  [
    "injuries",
    "first-visit-after-return",
    "look-at",
    { first_visit_date: "2024-06-04", full_climbing_date: "2024-06-03" },
  ],
  ["injuries", "age-under-17", "look-at", { age_at_injury: "16" }],
  ["treatments", "episode-inside-out", "set-aside", { end_date: "2024-03-09" }],
  ["treatments", "date-in-future", "set-aside", { end_date: "2025-07-01" }],
  ["treatments", "worn-more-than-prescribed", "look-at", { hours_per_day: "12", hours_per_day_worn: "13" }],
  ["imaging", "date-in-future", "set-aside", { date: "2025-07-01" }],
  ["visits", "date-in-future", "set-aside", { date: "2025-07-01" }],
];

describe("a row against itself (cross-field rules of the data dictionary)", () => {
  it.each(broken)("%s: %s, %s: %o", (table, code, severity, change) => {
    expect(queriesAbout(table, change)).toContainEqual(expect.objectContaining({ code, severity, row: 2 }));
  });

  it("every rule is shown here, those of the single sheet aside", () => {
    const ofSheet: readonly QueryCode[] = [
      "injury-date-too-wide",
      "treatment-without-start",
      "start-without-treatment",
      "second-treatment-alone",
      "distance-without-date",
    ];
    const shown = new Set([...broken.map(([, code]) => code), ...ofSheet]);
    expect(rowCodes.filter((code) => !shown.has(code))).toEqual([]);
  });

  it.each<readonly [Name, string, Cells]>([
    ["injuries", "a plain row", {}],
    [
      "injuries",
      "everything on the day of the injury",
      { first_visit_date: "2024-03-04", last_contact_date: "2024-03-04" },
    ],
    [
      "injuries",
      "a return that may lie after an injury known to the week",
      { injury_date_precision: "week", first_visit_date: "2024-02-27" },
    ],
    [
      "injuries",
      "milestones known to the month only",
      {
        easy_climbing_date: "2024-06-15",
        easy_climbing_precision: "month",
        full_climbing_date: "2024-06-03",
      },
    ],
    ["injuries", "a return on the last contact", { full_climbing_date: "2024-11-18" }],
    [
      "injuries",
      "three milestones on one day",
      {
        easy_climbing_date: "2024-06-03",
        full_climbing_date: "2024-06-03",
        previous_level_date: "2024-06-03",
      },
    ],
    [
      "injuries",
      "a new rupture on the day of the return, and one in the week in which the return is known",
      {
        new_rupture_date: "2024-06-03",
        full_climbing_date: "2024-06-03",
        previous_level_date: "2024-06-07",
        previous_level_precision: "week",
      },
    ],
    ["injuries", "contact on the day of closing", { last_contact_date: "2025-06-30" }],
    [
      "injuries",
      "an interval of 26 weeks",
      { full_climbing_not_before: "2024-03-10", full_climbing_not_after: "2024-09-08" },
    ],
    ["injuries", "grade 3 with extents not given", { pulley_extents: "" }],
    [
      "injuries",
      "grade 3 with a partial rupture of A3",
      { pulleys: "A2|A3", pulley_extents: "complete|partial" },
    ],
    ["injuries", "a strain of A5", { grade: "1", pulleys: "A5", pulley_extents: "strain" }],
    [
      "injuries",
      "the level of before",
      { level_scale: "french", level_before: "7a", level_after: "7a", previous_level_date: "2024-08-12" },
    ],
    ["injuries", "17 years, climbing for 14", { age_at_injury: "17", years_climbing: "14" }],
    ["treatments", "an episode of one day", { end_date: "2024-03-10" }],
    ["treatments", "an episode that goes on", { end_date: "" }],
  ])("%s: nothing is asked about %s", (table, _, change) => {
    expect(queriesAbout(table, change)).toEqual([]);
  });
});
