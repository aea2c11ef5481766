import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { linkCodes } from "../../../src/schema/data-query.js";
import type { LinkedTableName, QueryCode } from "../../../src/schema/index.js";
import { codesOf, sheetOf, study } from "./sheets.js";

type Changes = Partial<Record<LinkedTableName, readonly Readonly<Record<string, string>>[]>>;

const cohortOf = (changes: Changes) => {
  const names = Object.keys({ injuries: [], ...changes }) as LinkedTableName[];
  return readCohort(
    names.map((name) => sheetOf(name, changes[name])),
    study,
  );
};

const rest = { position: "rest", distance_mm: "1.0" };
const loadedPairs = (count: number, loaded: string) =>
  Array.from({ length: count }, (_, place) => String(place + 1)).flatMap((rater) => [
    { ...rest, rater },
    { distance_mm: loaded, rater },
  ]);
const second = { injury_id: "P09-2" };
const grade1 = { grade: "1", pulley_extents: "strain" };

const asked: readonly (readonly [QueryCode, string, Changes, number])[] = [
  ["site-unknown", "a site that is not in the sites", { injuries: [{ site_id: "site-b" }], sites: [{}] }, 1],
  [
    "possible-duplicate",
    "the same finger 14 days later",
    { injuries: [{}, { ...second, injury_date: "2024-03-18" }] },
    1,
  ],
  [
    "same-finger-again",
    "the same finger 15 days later",
    { injuries: [{}, { ...second, injury_date: "2024-03-19" }] },
    1,
  ],
  [
    "possible-same-person",
    "two persons alike in all but the name",
    {
      injuries: [
        { sex: "male", age_at_injury: "30" },
        { ...second, person_id: "P10", sex: "male", age_at_injury: "31" },
      ],
    },
    1,
  ],
  [
    "person-contradicts-itself",
    "a person of two sexes",
    {
      injuries: [{ sex: "male" }, { ...second, sex: "female", finger: "middle" }],
    },
    1,
  ],
  [
    "person-contradicts-itself",
    "two dominant hands",
    {
      injuries: [{ dominant_hand: "left" }, { ...second, dominant_hand: "right", finger: "middle" }],
    },
    1,
  ],
  [
    "person-contradicts-itself",
    "two years older after one day",
    {
      injuries: [
        { age_at_injury: "30" },
        { ...second, injury_date: "2024-03-05", age_at_injury: "32", finger: "middle" },
      ],
    },
    1,
  ],
  ["event-after-last-contact", "a visit after the last contact", { visits: [{ date: "2024-11-19" }] }, 1],
  ["completed-without-milestone", "completed, nothing seen", { injuries: [{ end_status: "completed" }] }, 1],
  ["grade-4-needs-several-or-complication", "grade 4a with one pulley", { injuries: [{ grade: "4a" }] }, 1],
  [
    "surgery-in-grade-1",
    "an operated strain",
    { injuries: [grade1], treatments: [{ treatment: "surgery" }] },
    1,
  ],
  [
    "surgery-twice",
    "two operations in 14 days",
    {
      treatments: [
        { treatment: "surgery", end_date: "" },
        { treatment: "surgery", start_date: "2024-03-24", end_date: "" },
      ],
    },
    1,
  ],
  [
    "same-treatment-overlaps",
    "two rings at once",
    { treatments: [{}, { start_date: "2024-05-04", end_date: "2024-06-01" }] },
    1,
  ],
  [
    "same-treatment-overlaps",
    "an episode without an end goes on",
    {
      treatments: [{ end_date: "" }, { start_date: "2024-06-04", end_date: "2024-07-01" }],
    },
    1,
  ],
  ["loaded-below-rest", "loaded below rest", { imaging: [{ ...rest, distance_mm: "3.5" }, {}] }, 1],
  ["loaded-mostly-below-rest", "most pairs the wrong way round", { imaging: loadedPairs(5, "0.9") }, 1],
  ["distance-against-grade", "grade 3 under the threshold", { imaging: [{ distance_mm: "1.9" }] }, 1],
  ["distance-against-grade", "grade 1 over it", { injuries: [grade1], imaging: [{ distance_mm: "2.1" }] }, 1],
  [
    "bowstringing-against-distance",
    "visible bowstringing at 1.9 mm",
    {
      injuries: [{ bowstringing: "visible" }],
      imaging: [{ distance_mm: "1.9" }],
    },
    1,
  ],
  ["sides-equal", "both sides to the digit", { imaging: [{}, { side: "other" }] }, 1],
  ["imaging-pulley-not-injured", "A4 measured, A2 injured", { imaging: [{ pulley: "A4" }] }, 1],
  ["distance-unit-doubtful", "a column in centimetres", { imaging: loadedPairs(5, "0.34") }, 1],
  ["distance-unit-doubtful", "a column in tenths", { imaging: loadedPairs(5, "9.5") }, 1],
  [
    "score-scale-doubtful",
    "five totals below 10",
    {
      visits: [1, 2, 3, 4, 5].map((day) => ({ date: `2024-05-0${day}`, quickdash: String(day) })),
    },
    1,
  ],
  [
    "visit-contradicts-milestone",
    "not yet after the dated return",
    {
      injuries: [{ full_climbing_date: "2024-06-03" }],
      visits: [{ date: "2024-06-04", full_climbing: "no" }],
    },
    1,
  ],
  [
    "visit-contradicts-milestone",
    "yes before it",
    {
      injuries: [{ full_climbing_date: "2024-06-03" }],
      visits: [{ date: "2024-06-02", full_climbing: "yes" }],
    },
    1,
  ],
  [
    "text-may-identify",
    "a title with a name in one note, and an address twice and a number in another",
    {
      injuries: [{ notes: "sent by Dr. Ames" }],
      visits: [{ note: "mail a.b@example.org or c.d@example.org, tel 0555 010 447" }],
    },
    3,
  ],
  [
    "pseudonym-may-identify",
    "one person under a name, in two rows",
    {
      injuries: [{ person_id: "Anna Ames" }, { ...second, person_id: "Anna Ames", finger: "middle" }],
    },
    1,
  ],
];

/** Shown in more-link-rules.test.ts. */
const shownThere: readonly QueryCode[] = [
  "person-ids-alike",
  "site-ids-alike",
  "person-ids-at-several-sites",
  "near-duplicate-injury",
  "near-duplicates-not-all-compared",
  "reading-twice",
  "distance-tenfold",
];
const settingAside: readonly QueryCode[] = [
  "identifier-twice",
  "injury-twice",
  "row-repeated",
  "visits-differ",
  "row-without-injury",
  "injury-set-aside",
];

describe("rows against each other (cross-field rules of the data dictionary)", () => {
  it.each(asked)("%s: %s", (code, _, changes, times) => {
    const { queries, accounts } = cohortOf(changes);
    expect(queries.filter((query) => query.code === code)).toHaveLength(times);
    expect(
      queries.every(({ severity }) => severity === "look-at"),
      "asked about, and used",
    ).toBe(true);
    expect(accounts.every(({ read, used }) => read === used)).toBe(true);
  });

  it("every rule is shown here or sets rows aside", () => {
    const shown = new Set<QueryCode>([...asked.map(([code]) => code), ...settingAside, ...shownThere]);
    expect(linkCodes.filter((code) => !shown.has(code))).toEqual([]);
  });

  it.each<readonly [string, Changes]>([
    ["a plain cohort", { treatments: [{}], imaging: [{}, rest], visits: [{}], sites: [{}] }],
    ["a site without a table of sites", { injuries: [{ site_id: "site-b" }] }],
    [
      "a new rupture that the earlier row tells of",
      {
        injuries: [{ new_rupture_date: "2024-07-01" }, { ...second, injury_date: "2024-07-01" }],
      },
    ],
    [
      "another finger, another hand, or the same id at another site",
      {
        injuries: [
          { site_id: "site-a" },
          { ...second, site_id: "site-a", finger: "middle" },
          { injury_id: "P09-3", site_id: "site-a", hand: "right", injury_date: "2024-03-05" },
          { injury_id: "P09-4", site_id: "site-b", sex: "male" },
        ],
      },
    ],
    [
      "a year older after a birthday",
      {
        injuries: [
          { age_at_injury: "30" },
          { ...second, injury_date: "2024-05-05", age_at_injury: "31", finger: "middle" },
        ],
      },
    ],
    ["completed with a visit", { injuries: [{ end_status: "completed" }], visits: [{}] }],
    [
      "grade 4a with a complication at a visit",
      { injuries: [{ grade: "4a" }], visits: [{ complication: "tenosynovitis" }] },
    ],
    [
      "one treatment after the other",
      { treatments: [{}, { start_date: "2024-05-05", end_date: "2024-06-01" }] },
    ],
    ["tape and ring at once", { treatments: [{}, { treatment: "tape" }] }],
    ["a later scan that shows healing", { imaging: [{}, { date: "2024-09-08", distance_mm: "1.2" }] }],
    ["a bound that allows for the threshold", { imaging: [{ distance_mm: "1.9", bound: "above" }] }],
    [
      "other raters, other days",
      {
        imaging: [{ ...rest, distance_mm: "3.9", rater: "r1" }, { rater: "r2" }],
      },
    ],
    [
      "the other side at another pulley",
      { imaging: [{}, { side: "other", pulley: "A4", distance_mm: "0.8" }] },
    ],
    [
      "a visit that a return known to the week allows",
      {
        injuries: [{ full_climbing_date: "2024-06-03", full_climbing_precision: "week" }],
        visits: [{ date: "2024-06-05", full_climbing: "no" }],
      },
    ],
  ])("nothing is asked about %s", (_, changes) => {
    // that an id stands at two sites is asked of the study file, not of a row
    const asked = codesOf(cohortOf(changes).queries).filter((code) => code !== "person-ids-at-several-sites");
    expect(asked).toEqual([]);
  });
});
