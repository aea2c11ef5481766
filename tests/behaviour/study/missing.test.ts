import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { injury, type Row, resultsOf, treated } from "./hand-made.js";

const notBack = { full_climbing_date: "", last_contact_date: "2024-05-06" };

/** Six fingers: two taped and lost, one ringed and followed to the end without a return, three back. */
const injuries = [
  injury("1", { sex: "" }),
  injury("2", { sex: "not_stated", onset: "" }),
  injury("3", { ...notBack, age_at_injury: "20" }),
  injury("4", { ...notBack, age_at_injury: "22", site_id: "b" }),
  injury("5", { full_climbing_date: "", site_id: "b" }),
  injury("6", { onset: "unknown", sex: "" }),
];
const treatments = [
  treated("1", "ring"),
  treated("2", "ring"),
  treated("3", "tape"),
  treated("4", "tape"),
  treated("5", "ring"),
];

describe("missing values of six fingers, counted by hand", () => {
  const { missing } = resultsOf(injuries, treatments);
  const field = (name: string) => missing.fields.find((each) => each.field === name);

  it("blank and unknown are told apart, and both are gaps", () => {
    expect(field("sex")).toEqual({
      field: "sex",
      in_the_study: true,
      blank: 2,
      unknown: 1,
      missing: 3,
      share: 0.5,
    });
    expect(field("onset")).toMatchObject({ blank: 1, unknown: 1, missing: 2 });
    expect(field("age_at_injury")).toMatchObject({ missing: 0, in_the_study: false });
  });

  it("a return that was not reached is no gap; a field that nobody has is named and not counted", () => {
    expect(field("full_climbing_date")).toBeUndefined();
    expect(field("grip")).toBeUndefined();
    expect(missing.never_filled).toEqual(expect.arrayContaining(["grip", "height_cm", "bowstringing"]));
    expect(missing.complete).toBe(3);
  });

  it("by first treatment, in the order of the study, those without one last; by site where there are several", () => {
    expect(
      missing.groupings.map(({ by, groups }) => [by, groups.map(({ label, n }) => `${label} ${n}`)]),
    ).toEqual([
      ["first_treatment", ["ring 3", "tape 2", "not_recorded 1"]],
      ["site_id", ["a 4", "b 2"]],
    ]);
    const sex = missing.fields.findIndex((each) => each.field === "sex");
    expect(missing.groupings[0]!.groups.map((group) => group.missing[sex]!.n)).toEqual([2, 0, 1]);
    expect(missing.groupings[0]!.groups[0]!.missing[sex]!.share).toBeCloseTo(2 / 3, 12);
  });

  it("patterns of what is missing together", () => {
    expect(missing.patterns).toEqual([
      { fields: [], n: 3 },
      { fields: ["sex", "onset"], n: 2 },
      { fields: ["sex"], n: 1 },
    ]);
  });
});

describe("follow-up that is far from complete is warned of", () => {
  const warned = (rows: readonly Row[]) =>
    resultsOf(rows, treatments).warnings.filter(({ code }) => code === "completeness-low");

  it("two of six last seen on day 63 of 182: days seen by days that could have been (Clark et al. 2002)", () => {
    const [warning] = warned(injuries);
    // three back on day 91, one followed throughout
    expect(warning?.facts.share).toBeCloseTo((3 * 91 + 2 * 63 + 182) / (3 * 91 + 3 * 182), 12);
  });

  it("not where everybody was seen until the return or the horizon", () => {
    expect(warned(injuries.filter(({ last_contact_date }) => last_contact_date !== "2024-05-06"))).toEqual(
      [],
    );
  });
});

describe("who was lost, of six fingers, counted by hand", () => {
  const { lost } = resultsOf(injuries, treatments);

  it("lost is who was last seen before the horizon and the closing day, without any end", () => {
    expect(lost).toMatchObject({ n: 6, lost: 2, horizon_days: 182, closing_day_known: true });
    expect(lost.groupings[0]!.groups.map(({ label, lost: n }) => [label, n])).toEqual([
      ["ring", 0],
      ["tape", 2],
      ["not_recorded", 0],
    ]);
  });

  /** Warnings of unequal loss where so many of twenty were lost in each group. */
  const unequal = (lostOf: { readonly ring: number; readonly tape: number }, smallest_group = 5) => {
    const groups = (["ring", "tape"] as const).map((treatment) => ({
      treatment,
      rows: Array.from({ length: 20 }, (_, at) =>
        injury(`${treatment}-${at}`, at < lostOf[treatment] ? notBack : {}),
      ),
    }));
    const begun = groups.flatMap(({ treatment, rows }) =>
      rows.map(({ injury_id }) => treated(injury_id!, treatment)),
    );
    const compare = { adjust_for: [], smallest_group };
    return resultsOf(
      groups.flatMap(({ rows }) => rows),
      begun,
      { compare },
    ).warnings.filter(({ code }) => code === "lost-unequally");
  };

  it("lost more often in one compared group than in another: said with counts, shares and the evidence", () => {
    const [warning, ...others] = unequal({ ring: 2, tape: 10 });
    expect(others).toEqual([]);
    expect(warning!.facts).toMatchObject({
      group: "tape",
      lost: 10,
      n: 20,
      share: 0.5,
      other: "ring",
      other_lost: 2,
      other_n: 20,
      other_share: 0.1,
    });
    // R 4.2.2: fisher.test(matrix(c(10, 10, 2, 18), 2))$p.value
    expect(warning!.facts.p).toBeCloseTo(0.01381414785, 10);
  });

  it("is not said where chance does as much, nor of groups too small to describe", () => {
    // 15 percentage points apart, and p = 0.45 by the same test
    expect(unequal({ ring: 3, tape: 6 })).toEqual([]);
    expect(unequal({ ring: 2, tape: 10 }, 21)).toEqual([]);
  });

  it("the closing day bounds what could be seen: nobody is lost who was followed until then", () => {
    const data = { injuries: "injuries.csv", treatments: "treatments.csv", closed_on: "2024-05-06" };
    const early = injuries
      .filter(({ full_climbing_date }) => full_climbing_date === "")
      .map((row) => ({ ...row, last_contact_date: "2024-05-06" }));
    expect(resultsOf(early, treatments.slice(2), { data }).lost).toMatchObject({ n: 3, lost: 0 });
  });

  it("tells the months of recruitment, the months at risk and how long those not back were followed", () => {
    const { follow_up } = resultsOf(injuries, treatments);
    expect(follow_up.recruited).toEqual({ from: "2024-03", to: "2024-03" });
    // two lost after 63 days, one followed for 259, three back after 91
    expect(follow_up.person_months).toBeCloseTo((2 * 63 + 259 + 3 * 91) / (365.25 / 12), 9);
    expect(follow_up.not_back_days).toEqual({ shortest: 63, longest: 259 });
  });

  it("tells no month where each person's dates are on a calendar of their own", () => {
    const data = { injuries: "injuries.csv", treatments: "treatments.csv", calendar: "per_person" } as const;
    expect(resultsOf(injuries, treatments, { data }).follow_up.recruited).toBeNull();
  });

  it("time seen: 63 of 182 days of two, all of the others", () => {
    // until the return or the last contact: those who are back, or were followed throughout, count in full
    const tape = lost.groupings[0]!.groups[1]!;
    expect(tape.completeness).toBeCloseTo(63 / 182, 12);
    expect(lost.groupings[0]!.groups[0]!.completeness).toBe(1);
  });

  it("lost beside stayed: ages 20 and 22 against four of 30; a group with too few is counted, not described", () => {
    const [all, ring, tape] = lost.compared;
    expect(all).toMatchObject({ by: null, group: "all", lost: 2, stayed: 4, reason: null });
    const age = all!.rows.find(({ variable }) => variable === "age_at_injury")!;
    expect(age.groups.map(({ n, mean }) => [n, mean])).toEqual([
      [2, 21],
      [4, 30],
    ]);
    // (21 - 30) / sqrt((2 + 0) / 2)
    expect(age.standardised_differences[0]).toBeCloseTo(-9, 9);
    expect(all!.rows.some(({ variable }) => variable === "first_treatment")).toBe(true);
    expect(ring).toMatchObject({ group: "ring", lost: 0, rows: [], reason: "too-few-rows" });
    expect(tape).toMatchObject({ group: "tape", lost: 2, stayed: 0, rows: [], reason: "too-few-rows" });
  });

  it("without a closing day the results say so", () => {
    const data = { injuries: "injuries.csv", treatments: "treatments.csv" };
    expect(resultsOf(injuries, treatments, { data }).lost.closing_day_known).toBe(false);
  });
});

describe("laws", () => {
  const some = fc.record({
    sex: fc.constantFrom("", "female", "not_stated"),
    onset: fc.constantFrom("", "pop", "unknown"),
    site_id: fc.constantFrom("", "a", "b"),
    age_at_injury: fc.constantFrom("", "30"),
    full_climbing_date: fc.constantFrom("", "2024-05-03"),
    last_contact_date: fc.constantFrom("2024-05-06", "2024-11-18"),
  });

  it("groups add up to the whole, patterns to the injuries, lost and stayed to all", () => {
    fc.assert(
      fc.property(fc.array(some, { minLength: 1, maxLength: 10 }), (changes) => {
        const rows = changes.map((change, place) => injury(String(place), change));
        const first = rows.map(({ injury_id }, place) =>
          treated(injury_id!, place % 3 === 0 ? "ring" : "tape"),
        );
        const { missing, lost } = resultsOf(rows, first);
        const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
        expect(missing.n).toBe(rows.length);
        expect(sum(missing.patterns.map(({ n }) => n)) + missing.other_patterns.n).toBe(missing.n);
        for (const { groups } of missing.groupings) {
          expect(sum(groups.map(({ n }) => n))).toBe(missing.n);
          for (const [place, field] of missing.fields.entries())
            expect(sum(groups.map((group) => group.missing[place]!.n))).toBe(field.missing);
        }
        for (const { blank, unknown, missing: n } of missing.fields) expect(blank + unknown).toBe(n);
        for (const { groups } of lost.groupings) {
          expect(sum(groups.map(({ n }) => n))).toBe(lost.n);
          expect(sum(groups.map((group) => group.lost))).toBe(lost.lost);
        }
        for (const one of lost.compared) if (one.by === null) expect(one.lost + one.stayed).toBe(lost.n);
      }),
      { seed: 2024, numRuns: 60 },
    );
  });
});
