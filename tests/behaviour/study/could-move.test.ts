import { describe, expect, it } from "vitest";
import type { ExactResults } from "../../../src/study/index.js";
import { movedBySetAside } from "../../../src/study/set-aside-moves.js";
import { specificationOf } from "../../../src/study/specification.js";
import { moveWords } from "../../../src/words/could-move.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

/** Back on this day. */
const back = (id: string, day: number, change: Row = {}) =>
  injury(id, { full_climbing_date: on(day), ...change });
/** Not back, and followed until the data were closed. */
const followed = (id: string, change: Row = {}) =>
  injury(id, { full_climbing_date: "", last_contact_date: "2025-06-30", ...change });
/** Gave up on this day. */
const gaveUp = (id: string, day: number) =>
  injury(id, { full_climbing_date: "", gave_up_date: on(day), last_contact_date: on(day) });

/** Each is treated as its name says, from the day after the injury on; the main landmark is day 91. */
const answered = (rows: readonly Row[], written: Parameters<typeof resultsOf>[2] = {}): ExactResults =>
  resultsOf(
    // of unlike ages, or the site is asked whether they are one person
    rows.map((row, i) => ({ ...row, age_at_injury: String(20 + 3 * i) })),
    rows.map(({ injury_id }) => treated(injury_id!, injury_id!.split(" ")[0]!)),
    { compare: { adjust_for: [], smallest_group: 2 }, ...written },
  );
const moveOf = (results: ExactResults, code: ExactResults["warnings"][number]["code"]) =>
  results.warnings.find((warning) => warning.code === code)?.could_move;
const points = (results: ExactResults, code: ExactResults["warnings"][number]["code"]) =>
  moveOf(results, code)?.points;

/** Two of four back with a ring, one of four with tape. */
const plain = [
  back("ring 1", 40),
  back("ring 2", 50),
  followed("ring 3"),
  followed("ring 4"),
  back("tape 1", 40),
  followed("tape 2"),
  followed("tape 3"),
  followed("tape 4"),
];

describe("how far a warning could move the main figure, by hand", () => {
  it("competing ends: 1/2 of all less 1/4, and 2/3 less 1/4 of those who would be left if nobody gave up", () => {
    // with a ring one gives up before the first return: of four then three are left, two of whom are back
    const results = answered(plain.map((row) => (row.injury_id === "ring 3" ? gaveUp("ring 3", 30) : row)));
    expect(moveOf(results, "competing-ends-present")?.how).toBe("other-share-back");
    expect(points(results, "competing-ends-present")).toBeCloseTo(2 / 3 - 1 / 2, 12);
  });

  it("inexact dates: one of four with tape, known to the month around day 91, in or out: 1/4", () => {
    // 3 June 2024 is day 91; known to the month it lies from day 89 to day 118, and is placed on day 103
    const month = back("tape 2", 91, { full_climbing_precision: "month" });
    const results = answered(
      plain.map((row) => (row.injury_id === "tape 2" ? month : row)),
      {
        question: { inexact_returns: "on_one_day" },
      },
    );
    expect(moveOf(results, "inexact-dates")?.how).toBe("earliest-and-latest-dates");
    expect(points(results, "inexact-dates")).toBeCloseTo(1 / 4, 12);
  });

  describe("rows set aside", () => {
    const unread = (id: string) => injury(id, { injury_date: "", full_climbing_date: on(40) });
    const two = [...plain, unread("ring 8"), unread("tape 9")];

    it("two of them back with tape, and none with a ring: 1/2 less 3/6 where it was 1/2 less 1/4", () => {
      const results = answered(two);
      expect(results.warnings.find(({ code }) => code === "rows-set-aside")!.facts).toEqual({ n: 2, of: 10 });
      // the other way, all to a ring, it is 4/6 less 1/4: a move of 1/6
      expect(moveOf(results, "rows-set-aside")?.how).toBe("set-aside-opposed");
      expect(points(results, "rows-set-aside")).toBeCloseTo(1 / 4, 12);
    });

    it("where nothing is compared, both back among all: 5/10 where it was 3/8", () => {
      const results = answered(two, {
        compare: { groups: ["ring", "surgery"], reference: "surgery", adjust_for: [], smallest_group: 2 },
      });
      expect(moveOf(results, "rows-set-aside")?.how).toBe("set-aside-alike");
      expect(points(results, "rows-set-aside")).toBeCloseTo(5 / 10 - 3 / 8, 12);
    });

    it("a row that repeats an earlier one in every cell is no other injury, and moves nothing", () => {
      const results = answered(two);
      const tables = results.accounting.tables.map((table) => ({
        ...table,
        reasons: table.reasons.map((reason) => ({ ...reason, code: "row-repeated" as const })),
      }));
      const repeated = { ...results, accounting: { ...results.accounting, tables } };
      expect(movedBySetAside(repeated, specificationOf(results.plan))?.points).toBe(0);
    });
  });

  it("missing covariates: without one back with a ring 1/3 less 1/4, before 1/2 less 1/4", () => {
    const results = answered(
      plain.map((row) => (row.injury_id === "ring 1" ? { ...row, sex: "not_stated" } : row)),
      { compare: { adjust_for: ["sex"], smallest_group: 2 } },
    );
    expect(moveOf(results, "covariates-missing")?.how).toBe("without-these-injuries");
    expect(points(results, "covariates-missing")).toBeCloseTo(1 / 2 - 1 / 3, 12);
  });

  it("overlap: two men with a ring have no like; crude 4/6 less 1/4, in women alone 2/4 less 1/4", () => {
    const men = [back("ring 5", 30, { sex: "male" }), back("ring 6", 30, { sex: "male" })];
    const results = answered([...plain, ...men], { compare: { adjust_for: ["sex"], smallest_group: 2 } });
    expect(moveOf(results, "overlap-lacking")?.how).toBe("crude-and-adjusted");
    expect(points(results, "overlap-lacking")).toBeCloseTo(4 / 6 - 2 / 4, 12);
  });

  it("imbalance: by sex the difference is 1/3 of 1/2 in women and 2/3 of 0 in men", () => {
    // women: ring 1 of 2 back, tape 0 of 2; men: ring 4 of 4, tape 4 of 4
    const rows = [
      back("ring 1", 40),
      followed("ring 2"),
      followed("tape 1"),
      followed("tape 2"),
      ...[3, 4, 5, 6, 7, 8].map((n) => back(`ring ${n}`, 40, { sex: "male" })),
      ...[3, 4].map((n) => back(`tape ${n}`, 40, { sex: "male" })),
    ];
    // crude: 7 of 8 less 2 of 4; like for like: women 4 of 12, men 8 of 12
    const results = answered(rows);
    const own = results.warnings.find(
      ({ code, facts }) => code === "imbalance-not-held" && facts.field === "sex",
    );
    expect(own?.could_move?.how).toBe("adjusted-for-it");
    expect(own?.could_move?.points).toBeCloseTo(7 / 8 - 2 / 4 - (4 / 12) * (1 / 2), 12);
  });

  it("queries: without the one asked about, back with a ring, 1/3 less 1/4, before 1/2 less 1/4", () => {
    // its grade is said to rest on an operation of which there is no row
    const results = answered(
      plain.map((row) => (row.injury_id === "ring 1" ? { ...row, grade_source: "surgery" } : row)),
    );
    const warning = results.warnings.find(({ code }) => code === "queries-open");
    expect(warning?.facts).toEqual({ n: 1, of: 8, queries: 1 });
    expect(warning?.could_move?.how).toBe("without-those-queried");
    expect(warning?.could_move?.points).toBeCloseTo(1 / 2 - 1 / 3, 12);
    expect(answered(plain).warnings.map(({ code }) => code)).not.toContain("queries-open");
  });

  it("is said as a bound, as less than a point, or as nothing", () => {
    const said = (points: number) => moveWords({ could_move: { points, how: "without-those-queried" } });
    expect(said(0.14)).toMatch(/^which could move the figure by up to 14 percentage points if /);
    expect(said(0.011)).toMatch(/^which could move the figure by up to 1 percentage point if /);
    expect(said(0.001)).toMatch(/^which would move the figure by less than 1 percentage point if /);
    expect(said(0)).toMatch(/^which would not move the figure if /);
    expect(moveWords({ could_move: null })).toBe("");
  });
});
