import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { comparableId } from "../../../src/ingest/rules/near-duplicates.js";
import { habitCodes, historyCodes } from "../../../src/schema/data-query.js";
import { dateOfDay, dayNumber, type LinkedTableName, type QueryCode } from "../../../src/schema/index.js";
import { sheetOf, study } from "./sheets.js";

type Row = Readonly<Record<string, string>>;
type Changes = Partial<Record<LinkedTableName, readonly Row[]>>;

const askedOf = (changes: Changes, calendar: "common" | "per_person" = "common") => {
  const names = Object.keys({ injuries: [], ...changes }) as LinkedTableName[];
  const sources = names.map((name) => sheetOf(name, changes[name]));
  return readCohort(sources, { ...study, calendar });
};
const timesOf = (code: QueryCode, changes: Changes, calendar?: "common" | "per_person") =>
  askedOf(changes, calendar).queries.filter((query) => query.code === code).length;

const many = <T>(count: number, make: (place: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, place) => make(place));
const dayAfter = (date: string, days: number) => dateOfDay(dayNumber(date) + days);

const second = { injury_id: "P09-2" };
const known = { sex: "male", age_at_injury: "30" };
const other = (change: Row): Row => ({ ...second, ...known, ...change });
const surgery = { treatment: "surgery", start_date: "2024-04-01", end_date: "" };

/** Injuries of as many persons, each with a return so many days later. */
const returns = (days: readonly number[], day: (place: number) => string = () => "2024-01-02"): Changes => ({
  injuries: days.map((gap, place) => ({
    injury_id: `i${place}`,
    person_id: `person ${place}`,
    injury_date: day(place),
    full_climbing_date: dayAfter(day(place), gap),
  })),
});
/** Spread evenly over days, so that no week, weekday or day of the month stands out. */
const even = many(70, (place) => 40 + place);

/** Readings of as many injuries, one each. */
const readings = (count: number, make: (place: number) => { injury?: Row; reading: Row }): Changes => ({
  injuries: many(count, (place) => ({
    injury_id: `i${place}`,
    person_id: `person ${place}`,
    ...make(place).injury,
  })),
  imaging: many(count, (place) => ({ injury_id: `i${place}`, ...make(place).reading })),
});
const tenths = (place: number) => (2.1 + ((place * 7) % 20) / 10).toFixed(1);
const inHalf = (place: number) => (place % 2 === 0 ? "2023-02-01" : "2023-09-01");

const cases: Partial<
  Record<QueryCode, { asks: readonly [string, Changes][]; not: readonly [string, Changes][] }>
> = {
  "person-ids-alike": {
    asks: [
      ["case and a leading zero", { injuries: [{}, { ...second, person_id: "p9", finger: "middle" }] }],
      [
        "a hyphen and a Cyrillic letter",
        { injuries: [{}, { ...second, person_id: "Р-09", finger: "middle" }] },
      ],
    ],
    not: [
      ["another number", { injuries: [{}, { ...second, person_id: "P90", finger: "middle" }] }],
      [
        "another site",
        { injuries: [{ site_id: "a" }, { ...second, site_id: "b", person_id: "p09", finger: "middle" }] },
      ],
    ],
  },
  "site-ids-alike": {
    asks: [
      ["case and spaces", { injuries: [{ site_id: "Hill clinic" }, { ...second, site_id: "hill  Clinic" }] }],
      [
        "an accent that is composed, and one that is not",
        { injuries: [{ site_id: "Caf\u00e9" }, { ...second, site_id: "Cafe\u0301" }] },
      ],
      ["a Cyrillic letter", { injuries: [{ site_id: "A" }, { ...second, site_id: "\u0410" }] }],
      ["in the table of sites", { injuries: [{ site_id: "site a" }], sites: [{ site_id: "Site-A" }] }],
    ],
    not: [
      ["another letter", { injuries: [{ site_id: "site a" }, { ...second, site_id: "site b" }] }],
      [
        "the same name twice",
        { injuries: [{ site_id: "a" }, { ...second, site_id: "a" }], sites: [{ site_id: "a" }] },
      ],
      ["no name", { injuries: [{ site_id: "" }, { ...second, site_id: "" }] }],
    ],
  },
  "person-ids-at-several-sites": {
    asks: [
      ["one id at two sites", { injuries: [{ site_id: "a" }, { ...second, site_id: "b" }] }],
      ["one id with and without a site", { injuries: [{ site_id: "a" }, { ...second, site_id: "" }] }],
    ],
    not: [
      ["one id at one site", { injuries: [{ site_id: "a" }, { ...second, site_id: "a" }] }],
      ["two ids", { injuries: [{ site_id: "a" }, { ...second, site_id: "b", person_id: "X1" }] }],
    ],
  },
  "near-duplicate-injury": {
    asks: [
      [
        "two letters swapped, a week apart",
        { injuries: [known, other({ person_id: "P90", injury_date: "2024-03-11" })] },
      ],
      [
        "day and month swapped",
        { injuries: [known, other({ person_id: "X77", injury_date: "2024-04-03" })] },
      ],
    ],
    not: [
      ["neighbours in number", { injuries: [known, other({ person_id: "P08", injury_date: "2024-03-11" })] }],
      ["15 days apart", { injuries: [known, other({ person_id: "P90", injury_date: "2024-03-19" })] }],
      [
        "another age",
        { injuries: [known, other({ person_id: "P90", injury_date: "2024-03-11", age_at_injury: "33" })] },
      ],
      [
        "another grade",
        { injuries: [known, other({ person_id: "P90", injury_date: "2024-03-11", grade: "2" })] },
      ],
    ],
  },
  "reading-twice": {
    asks: [["the same reading", { imaging: [{}, { distance_mm: "3.5" }] }]],
    not: [
      ["numbered readings", { imaging: [{ reading: "1" }, { reading: "2", distance_mm: "3.5" }] }],
      ["two raters", { imaging: [{ rater: "a" }, { rater: "b", distance_mm: "3.5" }] }],
      ["two angles", { imaging: [{ pip_angle_deg: "40" }, { pip_angle_deg: "60" }] }],
    ],
  },
  "distance-tenfold": {
    asks: [
      [
        "a lost point beside two others",
        { imaging: [{ reading: "1" }, { reading: "2" }, { reading: "3", distance_mm: "0.34" }] },
      ],
      [
        "ten times the column",
        {
          imaging: [
            ...many(5, (place) => ({ rater: `r${place}`, position: "rest", distance_mm: "1" })),
            { rater: "r9", position: "rest", distance_mm: "12" },
          ],
        },
      ],
    ],
    not: [
      [
        "twice as much",
        { imaging: [{ reading: "1" }, { reading: "2" }, { reading: "3", distance_mm: "6.8" }] },
      ],
      [
        "a bound",
        {
          imaging: [{ reading: "1" }, { reading: "2" }, { reading: "3", distance_mm: "3.0", bound: "below" }],
        },
      ],
    ],
  },
  "event-both-hands": {
    asks: [
      [
        "one event, two hands",
        { injuries: [{ event_id: "e" }, { ...second, event_id: "e", hand: "right" }] },
      ],
      ["one day, two hands", { injuries: [{}, { ...second, finger: "middle", hand: "right" }] }],
    ],
    not: [
      [
        "two fingers of one hand",
        { injuries: [{ event_id: "e" }, { ...second, event_id: "e", finger: "middle" }] },
      ],
      ["two days", { injuries: [{}, { ...second, injury_date: "2024-03-05", hand: "right" }] }],
    ],
  },
  "earlier-injury-contradicts": {
    asks: [
      [
        "the same finger",
        { injuries: [{}, { ...second, injury_date: "2024-06-04", prior_injury_same_finger: "no" }] },
      ],
      [
        "its like on the other hand",
        {
          injuries: [
            {},
            { ...second, hand: "right", injury_date: "2024-06-04", other_side_ever_injured: "no" },
          ],
        },
      ],
    ],
    not: [
      [
        "the first of the two",
        { injuries: [{ prior_injury_same_finger: "no" }, { ...second, injury_date: "2024-06-04" }] },
      ],
      [
        "another finger",
        {
          injuries: [
            {},
            { ...second, finger: "middle", injury_date: "2024-06-04", prior_injury_same_finger: "no" },
          ],
        },
      ],
    ],
  },
  "comparison-side-injured": {
    asks: [
      [
        "the other hand hurt before",
        {
          injuries: [{}, { ...second, hand: "right", injury_date: "2024-01-04" }],
          imaging: [{}, { side: "other", distance_mm: "1" }],
        },
      ],
      [
        "the row says so",
        {
          injuries: [{ other_side_ever_injured: "yes" }],
          imaging: [{}, { side: "other", distance_mm: "1" }],
        },
      ],
    ],
    not: [
      [
        "the other hand hurt later",
        {
          injuries: [{}, { ...second, hand: "right", injury_date: "2024-08-04" }],
          imaging: [{}, { side: "other", distance_mm: "1" }],
        },
      ],
      [
        "another finger of it",
        {
          injuries: [{}, { ...second, hand: "right", finger: "middle", injury_date: "2024-01-04" }],
          imaging: [{}, { side: "other", distance_mm: "1" }],
        },
      ],
    ],
  },
  "only-other-side-imaged": {
    asks: [["one reading, of the other side", { imaging: [{ side: "other" }] }]],
    not: [
      ["both sides", { imaging: [{ side: "other", distance_mm: "1" }, {}] }],
      ["no scan", { imaging: [] }],
    ],
  },
  "note-names-other-hand": {
    asks: [
      ["right hand", { injuries: [{ notes: "Right hand, hold broke" }] }],
      ["German", { visits: [{ note: "Schmerz am rechten Mittelfinger" }] }],
      ["French", { imaging: [{ comment: "main droite" }] }],
    ],
    not: [
      ["the injured hand", { injuries: [{ notes: "left ring finger popped" }] }],
      ["both hands", { injuries: [{ notes: "right hand for comparison, left hand swollen" }] }],
      ["all right", { injuries: [{ notes: "feels all right, right away" }] }],
    ],
  },
  "treatment-after-return": {
    asks: [
      [
        "a ring after full climbing",
        {
          injuries: [{ full_climbing_date: "2024-05-20" }],
          treatments: [{ start_date: "2024-05-21", end_date: "" }],
        },
      ],
    ],
    not: [
      [
        "tape after full climbing",
        {
          injuries: [{ full_climbing_date: "2024-05-20" }],
          treatments: [{ treatment: "tape", start_date: "2024-05-21", end_date: "" }],
        },
      ],
      [
        "a new rupture",
        {
          injuries: [{ full_climbing_date: "2024-05-20", new_rupture_date: "2024-06-20" }],
          treatments: [{ start_date: "2024-06-21", end_date: "" }],
        },
      ],
      [
        "within the week that is known",
        {
          injuries: [{ full_climbing_date: "2024-05-20", full_climbing_precision: "week" }],
          treatments: [{ start_date: "2024-05-21", end_date: "" }],
        },
      ],
    ],
  },
  "treatment-through-surgery": {
    asks: [
      ["a ring that goes on", { treatments: [{ end_date: "" }, surgery] }],
      ["tape that ends after it", { treatments: [{ treatment: "tape", end_date: "2024-04-20" }, surgery] }],
    ],
    not: [
      ["a ring that ended", { treatments: [{ end_date: "2024-04-01" }, surgery] }],
      ["a ring after it", { treatments: [{ start_date: "2024-04-15" }, surgery] }],
      ["rehabilitation through it", { treatments: [{ treatment: "rehabilitation", end_date: "" }, surgery] }],
    ],
  },
  "first-distance-after-treatment": {
    asks: [
      [
        "a reading the day after the ring began",
        { treatments: [{ start_date: "2024-04-01" }], imaging: [{ date: "2024-04-02" }] },
      ],
    ],
    not: [
      [
        "on the day it began",
        { treatments: [{ start_date: "2024-04-02" }], imaging: [{ date: "2024-04-02" }] },
      ],
      [
        "after rehabilitation alone",
        {
          treatments: [{ treatment: "rehabilitation", start_date: "2024-04-01" }],
          imaging: [{ date: "2024-04-02" }],
        },
      ],
      [
        "a later reading beside one before it",
        {
          treatments: [{ start_date: "2024-04-01" }],
          imaging: [{ date: "2024-03-30" }, { date: "2024-04-20" }],
        },
      ],
    ],
  },
  "visits-go-back": {
    asks: [
      ["yes, then no", { visits: [{ easy_climbing: "yes" }, { date: "2024-05-15", easy_climbing: "no" }] }],
    ],
    not: [
      ["no, then yes", { visits: [{ easy_climbing: "no" }, { date: "2024-05-15", easy_climbing: "yes" }] }],
      [
        "a new rupture between",
        {
          injuries: [{ new_rupture_date: "2024-05-01" }],
          visits: [{ easy_climbing: "yes" }, { date: "2024-05-15", easy_climbing: "no" }],
        },
      ],
    ],
  },
  "visit-before-first-visit": {
    asks: [["a visit the day before", { injuries: [{ first_visit_date: "2024-04-16" }], visits: [{}] }]],
    not: [
      ["on that day", { injuries: [{ first_visit_date: "2024-04-15" }], visits: [{}] }],
      ["a call before it", { injuries: [{ first_visit_date: "2024-04-16" }], visits: [{ kind: "phone" }] }],
    ],
  },
  "gave-up-without-date": {
    asks: [["no day", { injuries: [{ end_status: "gave_up" }] }]],
    not: [
      ["a day", { injuries: [{ end_status: "gave_up", gave_up_date: "2024-06-01" }] }],
      ["lost", { injuries: [{ end_status: "lost" }] }],
    ],
  },
  "grade-source-without-rows": {
    asks: [
      [
        "ultrasound, and a scan by MRI only",
        { injuries: [{ grade_source: "ultrasound" }], imaging: [{ modality: "mri" }] },
      ],
      ["surgery, and none", { injuries: [{ grade_source: "surgery" }], treatments: [{}] }],
    ],
    not: [
      ["ultrasound, scanned", { injuries: [{ grade_source: "ultrasound" }], imaging: [{}] }],
      ["no table of scans", { injuries: [{ grade_source: "mri" }] }],
      ["clinical", { injuries: [{ grade_source: "clinical" }], imaging: [{}] }],
    ],
  },
  "site-definition-missing": {
    asks: [
      [
        "a site that dates full climbing",
        {
          injuries: [
            { site_id: "a", full_climbing_date: "2024-06-03" },
            { ...second, person_id: "x", site_id: "b" },
          ],
          sites: [{ site_id: "a" }, { site_id: "b" }],
        },
      ],
    ],
    not: [
      [
        "one site",
        { injuries: [{ site_id: "a", full_climbing_date: "2024-06-03" }], sites: [{ site_id: "a" }] },
      ],
      [
        "a definition",
        {
          injuries: [
            { site_id: "a", full_climbing_date: "2024-06-03" },
            { ...second, person_id: "x", site_id: "b" },
          ],
          sites: [{ site_id: "a", definition_full: "all grips" }, { site_id: "b" }],
        },
      ],
    ],
  },
  "level-below-previous": {
    asks: [
      [
        "a visit after the previous level",
        {
          injuries: [{ level_scale: "french", level_before: "7a", previous_level_date: "2024-04-01" }],
          visits: [{ level_now: "6c" }],
        },
      ],
    ],
    not: [
      [
        "a visit before it",
        {
          injuries: [{ level_scale: "french", level_before: "7a", previous_level_date: "2024-05-01" }],
          visits: [{ level_now: "6c" }],
        },
      ],
      [
        "the same level",
        {
          injuries: [{ level_scale: "french", level_before: "7a", previous_level_date: "2024-04-01" }],
          visits: [{ level_now: "7a" }],
        },
      ],
    ],
  },
  "level-not-on-scale": {
    asks: [
      [
        "another family at a visit",
        { injuries: [{ level_scale: "french", level_before: "7a" }], visits: [{ level_now: "V5" }] },
      ],
    ],
    not: [
      [
        "the same family",
        { injuries: [{ level_scale: "french", level_before: "7a" }], visits: [{ level_now: "5c" }] },
      ],
    ],
  },
  "rater-unit-doubtful": {
    asks: [
      [
        "one rater in centimetres",
        {
          imaging: many(12, (place) => ({
            rater: place < 6 ? "a" : "b",
            reading: String((place % 6) + 1),
            distance_mm: place < 6 ? "0.34" : "3.4",
          })),
        },
      ],
    ],
    not: [
      [
        "half as much",
        {
          imaging: many(12, (place) => ({
            rater: place < 6 ? "a" : "b",
            reading: String((place % 6) + 1),
            distance_mm: place < 6 ? "1.7" : "3.4",
          })),
        },
      ],
      [
        "four readings",
        {
          imaging: many(8, (place) => ({
            rater: place < 4 ? "a" : "b",
            reading: String((place % 4) + 1),
            distance_mm: place < 4 ? "0.34" : "3.4",
          })),
        },
      ],
    ],
  },
  "distance-unit-doubtful": {
    asks: [
      [
        "rest in centimetres",
        { imaging: many(5, (place) => ({ rater: `r${place}`, position: "rest", distance_mm: "0.1" })) },
      ],
    ],
    not: [
      [
        "rest in millimetres",
        { imaging: many(5, (place) => ({ rater: `r${place}`, position: "rest", distance_mm: "0.9" })) },
      ],
    ],
  },
  "distance-digits-preferred": {
    asks: [
      [
        "all to half a millimetre",
        readings(40, (place) => ({ reading: { distance_mm: String(2 + (place % 5) / 2) } })),
      ],
      ["30 readings, the fewest", readings(30, () => ({ reading: { distance_mm: "3.5" } }))],
      [
        "one of two raters: the column, and the rater",
        readings(80, (place) => ({
          reading: { rater: place < 40 ? "a" : "b", distance_mm: place < 40 ? "3.5" : tenths(place) },
        })),
      ],
    ],
    not: [
      ["all tenths alike", readings(40, (place) => ({ reading: { distance_mm: tenths(place) } }))],
      ["29 readings", readings(29, () => ({ reading: { distance_mm: "3.5" } }))],
      [
        "hundredths alike",
        readings(40, (place) => ({ reading: { distance_mm: (2 + place / 100).toFixed(2) } })),
      ],
    ],
  },
  "returns-heaped-on-weeks": {
    asks: [
      [
        "half of them on weeks 6 and 12",
        returns([...many(20, () => 42), ...many(20, () => 84), ...many(40, (place) => 39 + (place % 7))]),
      ],
    ],
    not: [
      ["days spread evenly", returns(even)],
      ["whole weeks that nobody says", returns(many(40, (place) => 7 * (place % 2 === 0 ? 9 : 10)))],
      [
        "weeks said in the precision column",
        {
          injuries: returns(many(40, () => 42)).injuries!.map((row) => ({
            ...row,
            full_climbing_precision: "week",
          })),
        },
      ],
    ],
  },
  "returns-heaped-on-weekday": {
    asks: [["every return on a Tuesday", returns(many(40, (place) => 42 + 7 * (place % 9)))]],
    not: [["days spread evenly", returns(even)]],
  },
  "returns-heaped-in-month": {
    asks: [["half of them on the first", returns(many(40, (place) => (place % 2 === 0 ? 59 : 60 + place)))]],
    not: [["days spread evenly", returns(even)]],
  },
  "distance-drifts": {
    asks: [
      [
        "1 mm more in the second half-year: each of the two",
        readings(40, (place) => ({
          injury: { injury_date: inHalf(place), last_contact_date: "2024-11-18" },
          reading: { date: inHalf(place), distance_mm: String(2 + (place % 4) / 10 + (place % 2)) },
        })),
      ],
    ],
    not: [
      [
        "the same throughout",
        readings(40, (place) => ({
          injury: { injury_date: inHalf(place) },
          reading: { date: inHalf(place), distance_mm: tenths(place) },
        })),
      ],
      [
        "nine in a half-year",
        readings(18, (place) => ({
          injury: { injury_date: inHalf(place) },
          reading: { date: inHalf(place), distance_mm: String(2 + 2 * (place % 2)) },
        })),
      ],
    ],
  },
  "grade-share-drifts": {
    asks: [
      [
        "grade 2 in one half-year, 3 in the other",
        {
          injuries: many(40, (place) => ({
            injury_id: `i${place}`,
            person_id: `person ${place}`,
            injury_date: inHalf(place),
            ...(place % 2 === 0 ? { grade: "2", pulley_extents: "partial" } : {}),
          })),
        },
      ],
    ],
    not: [
      [
        "the same mixture",
        {
          injuries: many(40, (place) => ({
            injury_id: `i${place}`,
            person_id: `person ${place}`,
            injury_date: inHalf(place),
            ...(place % 4 < 2 ? { grade: "2", pulley_extents: "partial" } : {}),
          })),
        },
      ],
    ],
  },
};

const asked = Object.entries(cases).flatMap(([code, { asks }]) =>
  asks.map(([what, changes]) => [code as QueryCode, what, changes] as const),
);
const silent = Object.entries(cases).flatMap(([code, { not }]) =>
  not.map(([what, changes]) => [code as QueryCode, what, changes] as const),
);

describe("near duplicates, sides, sequences and habits (thresholds: common practice or our choice, no source)", () => {
  it.each(asked)("%s asks about: %s", (code, _, changes) => {
    expect(timesOf(code, changes)).toBeGreaterThanOrEqual(1);
    const { queries, accounts } = askedOf(changes);
    expect(
      queries.every(({ severity }) => severity === "look-at"),
      "asked about, and used",
    ).toBe(true);
    expect(accounts.every(({ read, used }) => read === used)).toBe(true);
  });

  it.each(silent)("%s does not ask about: %s", (code, _, changes) => {
    expect(timesOf(code, changes)).toBe(0);
  });

  it("every rule of these lists is shown to ask and to keep silent", () => {
    expect(
      [...historyCodes, ...habitCodes].filter(
        (code) => (cases[code]?.asks.length ?? 0) * (cases[code]?.not.length ?? 0) === 0,
      ),
    ).toEqual([]);
  });

  it.each([
    "returns-heaped-on-weekday",
    "returns-heaped-in-month",
    "distance-drifts",
    "grade-share-drifts",
    "near-duplicate-injury",
  ] as const)("%s is not asked where each person has a calendar of their own", (code) => {
    const changes = cases[code]!.asks[0]![1];
    expect(timesOf(code, changes, "per_person")).toBe(0);
  });

  it("near-duplicates-not-all-compared says how many rows had more others so near than are compared", () => {
    const persons = Array.from({ length: 205 }, (_, place) => ({
      injury_id: `Q${place}-1`,
      person_id: `Q${place}x${place}`,
    }));
    const alike = persons.map((person) => ({ ...known, ...person }));
    const late = ["R1", "R2"].map((id) => ({
      ...known,
      injury_id: `${id}-1`,
      person_id: id,
      injury_date: "2024-03-05",
    }));
    const found = (injuries: NonNullable<Changes["injuries"]>) =>
      askedOf({ injuries }).queries.filter(({ code }) => code === "near-duplicates-not-all-compared");
    expect(found([...alike, ...late])).toMatchObject([{ row: null, found: "2", facts: { most: 200 } }]);
    expect(found([...alike.slice(5), ...late])).toEqual([]);
  });

  it("a habit is asked about once, with numbers, and names no row", () => {
    const [, changes] = cases["returns-heaped-on-weeks"]!.asks[0]!;
    const [query, ...more] = askedOf(changes).queries.filter(
      ({ code }) => code === "returns-heaped-on-weeks",
    );
    expect(more).toEqual([]);
    expect(query).toMatchObject({ row: null, column: "full_climbing_date", facts: { count: 46, n: 80 } });
  });

  it.each([
    ["P-009", "p9"],
    ["  Р09", "P9"],
    ["a_1 0", "A10"],
    ["０９", "9"],
  ])("%j is heard as %j", (one, other) => {
    expect(comparableId(one)).toBe(comparableId(other));
  });
});
