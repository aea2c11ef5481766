import { describe, expect, it } from "vitest";
import {
  describeSite,
  type ExactDescription,
  siteCohort,
  siteDescription,
  withoutSmallCounts,
} from "../../../src/pooling/description/index.js";
import { fewestRows } from "../../../src/study/small-cells/index.js";
import { injury, on, type Row, readByHand, type Tables, treated } from "../study/hand-made.js";

const site: Row = {
  site_id: "a",
  definition_full: "all grips, no planned restriction",
  visit_schedule: "6, 13 weeks",
  how_people_come: "by_referral",
  threshold_mm: "2",
};
/** Five injuries of four people: two back on a day, one back between two visits, one that gave up, one lost after 50 days. */
const tables: Tables = {
  injuries: [
    injury("1", { full_climbing_date: on(60), first_visit_date: on(2), grade_source: "ultrasound" }),
    injury("2", { full_climbing_date: on(70), first_visit_date: on(4), grade_source: "clinical", sex: "" }),
    injury("3", {
      person_id: "person 1",
      finger: "middle",
      full_climbing_date: "",
      full_climbing_not_before: on(42),
      full_climbing_not_after: on(84),
      first_visit_date: on(6),
      grade: "3",
    }),
    injury("4", {
      full_climbing_date: "",
      end_status: "gave_up",
      gave_up_date: on(100),
      last_contact_date: on(100),
    }),
    injury("5", { full_climbing_date: "", last_contact_date: on(50), age_at_injury: "" }),
  ],
  treatments: [treated("1", "tape"), treated("2", "ring"), { injury_id: "3", treatment: "ring" }],
  visits: [
    { injury_id: "1", date: on(42) },
    { injury_id: "1", date: on(84) },
    { injury_id: "2", date: on(18) },
  ],
  imaging: [
    { rater: "r1", blinded: "yes" },
    { rater: "r2", blinded: "yes" },
    { date: on(84), rater: "" },
  ].map((change) => ({
    injury_id: "1",
    date: on(2),
    modality: "ultrasound",
    pulley: "A2",
    position: "loaded",
    distance_mm: "3",
    ...change,
  })),
  sites: [site],
};

function descriptionOf(given: Tables = tables): ExactDescription {
  const { read, plan } = readByHand(given);
  const description = describeSite(siteCohort(read.tables, { site: "north", plan }), plan);
  siteDescription.parse(description);
  return description;
}
const fieldNamed = (name: string, { fields }: ExactDescription = descriptionOf()) =>
  fields.find(({ field }) => field === name)!;

describe("a site is described before anything that it found", () => {
  it("how many injuries of how many people there are", () => {
    expect(descriptionOf()).toMatchObject({ site: "north", injuries: 5, analysed: 5, persons: 4 });
  });

  it("what it states, in its words; what it does not state is empty and not guessed", () => {
    const stated = new Map(descriptionOf().stated.map(({ field, values }) => [field, values]));
    expect(stated.get("definition_full")).toEqual(["all grips, no planned restriction"]);
    expect(stated.get("threshold_mm")).toEqual(["2"]);
    expect(stated.get("how_people_come")).toEqual(["by_referral"]);
    expect(stated.get("definition_easy")).toEqual([]);
    expect(stated.has("name")).toBe(false);
  });

  it("a row of the sites table without an injury states nothing of this site", () => {
    const other = { ...site, site_id: "b", definition_full: "the old project" };
    const { stated } = descriptionOf({ ...tables, sites: [site, other] });
    expect(stated.find(({ field }) => field === "definition_full")!.values).toEqual([site.definition_full]);
  });

  it("completeness by field: known of n, and how the values are distributed", () => {
    expect(fieldNamed("sex")).toMatchObject({ n: 5, known: 4, counts: [{ code: "female", n: 4 }] });
    expect(fieldNamed("grade").counts).toEqual([
      { code: "2", n: 4 },
      { code: "3", n: 1 },
    ]);
    expect(fieldNamed("grade_source")).toMatchObject({ n: 5, known: 2 });
    // 2, 4 and 6 days by hand: mean 4, standard deviation 2, median 4
    expect(fieldNamed("delay_days")).toMatchObject({
      unit: "d",
      known: 3,
      numbers: { n: 3, mean: 4, standard_deviation: 2, median: 4 },
    });
  });

  it("a blank date of return says that it is not reached, and its field says so", () => {
    expect(fieldNamed("full_climbing_date")).toMatchObject({ known: 2, blank_says: "not reached yet" });
  });

  it("of the first treatments how many begin on a known day", () => {
    expect(fieldNamed("first_treatment").counts).toEqual([
      { code: "tape", n: 1 },
      { code: "ring", n: 2 },
    ]);
    expect(fieldNamed("start_date")).toMatchObject({ n: 3, known: 2 });
  });

  it("days between contacts by hand: 2 to 42 to 84, and 4 to 18", () => {
    const { seen, contacts, days_between, longest_gap } = descriptionOf().schedule;
    expect(seen).toBe(3);
    expect(contacts).toMatchObject({ n: 3, mean: 2 });
    expect(days_between).toMatchObject({ n: 3, mean: (40 + 42 + 14) / 3, median: 40 });
    expect(longest_gap).toMatchObject({ n: 2, mean: (42 + 14) / 2 });
  });

  it("how exactly returns are known: two to the day, one to a span of 42 days", () => {
    const { n, known, wide, wide_share, span_days } = descriptionOf().returns;
    expect({ n, known, wide, wide_share }).toEqual({
      n: 3,
      known: [
        { code: "day", n: 2 },
        { code: "visits", n: 1 },
      ],
      wide: 1,
      wide_share: 1 / 3,
    });
    expect(span_days).toMatchObject({ mean: 14, median: 0 });
  });

  it("who was lost: one of five, followed 50 of 182 days", () => {
    // observed by hand: 60 + 70 + 63 + 100 + 50 days; possible: the same with 182 in place of 50
    const { lost, share, completeness, closing_day_known } = descriptionOf().loss;
    expect({ lost, share, closing_day_known }).toEqual({ lost: 1, share: 0.2, closing_day_known: true });
    expect(completeness).toBeCloseTo((60 + 70 + 63 + 100 + 50) / (60 + 70 + 63 + 100 + 182), 12);
  });

  it("raters and readings that were repeated", () => {
    expect(descriptionOf().imaging).toMatchObject({
      readings: 3,
      injuries: 1,
      raters: 2,
      readings_with_rater: 2,
      read_by_several: 1,
    });
  });

  it("a site without an analysed injury is described, with nothing in its distributions", () => {
    const given = {
      ...tables,
      injuries: [injury("1", { full_climbing_date: on(-5), last_contact_date: on(3) })],
    };
    const { analysed, returns, follow_up_days, loss } = descriptionOf({ ...given, visits: [], imaging: [] });
    expect({ analysed, n: returns.n, share: loss.share, days: follow_up_days.value }).toEqual({
      analysed: 0,
      n: 0,
      share: null,
      days: null,
    });
  });
});

describe("a description without small counts", () => {
  const told = (given: Tables) => {
    const { read } = readByHand(given);
    return siteDescription.parse(withoutSmallCounts(descriptionOf(given), fewestRows(read.tables, 5)));
  };
  const many: Tables = {
    ...tables,
    injuries: Array.from({ length: 23 }, (_, i) =>
      injury(String(i), { full_climbing_date: i < 20 ? on(60 + i) : "", sex: i < 2 ? "male" : "female" }),
    ),
    treatments: [],
    visits: [],
    imaging: [],
  };

  it("tells nothing of four people", () => {
    const { injuries, analysed, persons, fields, loss, follow_up_days } = told({
      ...tables,
      injuries: tables.injuries!.slice(0, 4),
      visits: [],
      imaging: [],
      treatments: [],
    });
    expect({ injuries, analysed, persons, lost: loss.lost, share: loss.share }).toEqual({
      injuries: "[left out]",
      analysed: "[left out]",
      persons: "[left out]",
      lost: "[left out]",
      share: null,
    });
    expect(follow_up_days.reason).toBe("small-cell");
    expect(fields.every(({ n, numbers }) => n === "[left out]" || n === 0 || numbers?.mean === null)).toBe(
      true,
    );
  });

  it("rounds what it tells, and leaves out a part whose rest is small", () => {
    const { analysed, fields, ends } = told(many);
    expect(analysed).toBe(25);
    // 2 male and 21 female of 23: neither is told, since each would tell the other
    expect(fields.find(({ field }) => field === "sex")!.counts).toEqual([
      { code: "female", n: "[left out]" },
      { code: "male", n: "[left out]" },
    ]);
    expect(ends).toEqual([
      { code: "milestone", n: "[left out]" },
      { code: "censored", n: "[left out]" },
    ]);
  });
});
