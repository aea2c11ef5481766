import { describe, expect, it } from "vitest";
import { type SiteSummary, summariseSite } from "../../../src/pooling/index.js";
import { injury, on, type Row, treated } from "../study/hand-made.js";
import { readOf, sha256, smallCells } from "./hand-site.js";

const back = (id: string, day: number, change: Row = {}): Row =>
  injury(id, { full_climbing_date: on(day), last_contact_date: on(day + 30), ...change });
const summaryOf = (injuries: readonly Row[], options: { readonly site?: string } = {}): SiteSummary => {
  const treatments = injuries.map(({ injury_id }, i) => treated(injury_id!, i % 2 === 0 ? "ring" : "tape"));
  return summariseSite(readOf({ injuries, treatments }), { ...options, smallCells, version: "0", sha256 });
};
const many = (n: number, change: (i: number) => Row = () => ({})): Row[] =>
  Array.from({ length: n }, (_, i) => back(`i${i}`, 30 + 7 * i, change(i)));
const told = ({ groups }: SiteSummary) => groups.map(({ family, label }) => `${family} ${label}`);
const kept = ({ held_back }: SiteSummary) =>
  held_back.map(({ of, family, label, compared, reason }) =>
    `${of} ${family ?? compared} ${label ?? ""}: ${reason}`.replace(" :", ":"),
  );

describe("what leaves a site", () => {
  it("of six injuries only estimates with their errors leave, and the counts of all", () => {
    const summary = summaryOf(many(6));
    expect(told(summary)).toEqual(["all all injuries", "grade 2"]);
    const [all] = summary.groups;
    expect(all!.n).toBe(5); // rounded to a multiple of five
    expect(all!.figures.filter(({ estimate }) => estimate !== null).length).toBeGreaterThan(2);
    expect(kept(summary)).toEqual([
      "group compared ring: few-people",
      "group compared tape: few-people",
      "comparison ring: few-people",
      "comparison ring: few-people",
    ]);
  });

  it("a grade of few people stays, and with it one from which it could be found", () => {
    const grades = (i: number): Row => ({ grade: i < 2 ? "4b" : i < 10 ? "3" : "2" });
    const summary = summaryOf(many(30, grades));
    expect(told(summary)).toEqual(["all all injuries", "grade 2", "compared ring", "compared tape"]);
    expect(kept(summary)).toContain("group grade 3: by-subtraction");
    expect(kept(summary)).toContain("group grade 4b: few-people");
  });

  it("people are counted once, also where one is in two grades", () => {
    // two people with 4b, each with an injury of grade 2 as well: sums of people over grades would hide that 4b can be found
    const rows = many(30, (i) => ({
      grade: i < 2 ? "4b" : i < 12 ? "3" : "2",
      ...(i === 20 || i === 21 ? { person_id: `person i${i - 20}`, finger: "middle" } : {}),
    }));
    expect(told(summaryOf(rows))).not.toContain("grade 3");
  });

  it("where somebody is in no compared group all stays, if the compared groups would tell of them", () => {
    const plan = { question: { clock: "treatment_start" as const } };
    const injuries = many(30);
    const treatments = injuries.map(({ injury_id }, i) =>
      treated(injury_id!, i < 2 ? "surgery" : i % 2 === 0 ? "ring" : "tape"),
    );
    const summary = summariseSite(readOf({ injuries, treatments }, plan), {
      smallCells,
      version: "0",
      sha256,
    });
    expect(told(summary)).toEqual(["compared ring", "compared tape"]);
    expect(kept(summary)).toContain("group all all injuries: by-subtraction");
  });

  it("in a small group a share of 0 or 100 % stays, and the difference that would tell it", () => {
    const summary = summaryOf(many(16, (i) => ({ full_climbing_date: on(i % 2 === 0 ? 80 : 60 + 2 * i) })));
    const ring = summary.groups.find(({ family, label }) => family === "compared" && label === "ring")!;
    expect(ring.figures.map(({ reason }) => reason)).toContain("all-alike");
    const place = ring.figures.findIndex(({ reason }) => reason === "all-alike");
    expect(summary.comparisons[0]!.figures[place]!.reason).toBe("all-alike");
    expect(ring.figures[place]).toMatchObject({
      value: null,
      standard_error: null,
      estimate: null,
      variance: null,
    });
    expect(ring.variance[place]!.every((one) => one === null)).toBe(true);
  });

  it("holds no id, no date and no file name", () => {
    const text = JSON.stringify(
      summaryOf(many(30, (i) => ({ person_id: `Climber ${i}`, notes: "secret note" }))),
    );
    expect(text).not.toMatch(/\d{4}-\d\d-\d\d|Climber|secret|i\d+"|injuries\.csv/);
  });

  it("says which site, or asks", () => {
    const two = many(20, (i) => ({ site_id: i < 12 ? "north" : "south" }));
    expect(() => summaryOf(two)).toThrow(
      "The tables hold injuries of 2 sites, and a summary is of one: north, south.",
    );
    expect(() => summaryOf(two, { site: "west" })).toThrow('No injury of the tables is of the site "west".');
    const north = summaryOf(two, { site: "north" });
    expect(north.groups[0]!.n).toBe(10);
    expect(north.quality.tables).toBeNull();
    const nameless = many(12, () => ({ site_id: "" }));
    expect(() => summaryOf(nameless)).toThrow("do not say which site they are of");
    expect(summaryOf(nameless, { site: "south" }).site).toBe("south");
  });
});
