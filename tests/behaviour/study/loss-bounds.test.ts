import { describe, expect, it } from "vitest";
import { plainWords } from "../../../src/report/plain/plain-words.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

const back = (id: string, day: number) => injury(id, { full_climbing_date: on(day) });
const lostOn = (id: string, day: number) =>
  injury(id, { full_climbing_date: "", last_contact_date: on(day) });
/** Not back, and followed until the data were closed. */
const followed = (id: string) => injury(id, { full_climbing_date: "", last_contact_date: "2025-06-30" });

/** Ten under each treatment. By week 13 six are back with a ring and four with tape; of each two are lost before. */
const injuries = [
  ...[40, 45, 50, 55, 60, 65].map((day) => back(`ring-${day}`, day)),
  ...[20, 30].map((day) => lostOn(`ring-${day}`, day)),
  ...[1, 2].map((n) => followed(`ring-${n}`)),
  ...[42, 47, 52, 57].map((day) => back(`tape-${day}`, day)),
  ...[20, 48].map((day) => lostOn(`tape-${day}`, day)),
  ...[1, 2, 3, 4].map((n) => followed(`tape-${n}`)),
];
const answered = (rows: readonly Row[], adjust_for: ("sex" | "grade")[] = []) =>
  resultsOf(
    rows,
    rows.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[0]!)),
    { question: { clock: "treatment_start" }, compare: { adjust_for, smallest_group: 2 } },
  );
const told = (results: ReturnType<typeof answered>) =>
  plainWords(results).flat().join(" ").replace(/\s/g, " ");

describe("bounds of loss, counted by hand", () => {
  const results = answered(injuries);
  const { shares, differences, day } = results.loss_bounds!;
  const values = (label: string) => {
    const { none_back, as_followed, all_back, lost } = shares.find((one) => one.label === label)!;
    return { lost, of: [none_back, as_followed, all_back].map(({ value }) => value) };
  };

  it("worst case: back of all; best case: back or lost of all; lost early are as those followed: 6 of 8", () => {
    expect(day).toBe(91);
    expect(values("ring")).toMatchObject({ lost: 2 });
    [0.6, 0.75, 0.8].forEach((share, at) => {
      expect(values("ring").of[at]).toBeCloseTo(share, 12);
    });
    // with tape one was lost after two of nine were back: 1 - (7/9) (4/6)
    [0.4, 1 - (7 / 9) * (4 / 6), 0.6].forEach((share, at) => {
      expect(values("tape").of[at]).toBeCloseTo(share, 12);
    });
    expect(values("all injuries").lost).toBe(4);
  });

  it("a difference: opposite assignments of the lost, 6 of 10 less 6 of 10 and 8 of 10 less 4 of 10", () => {
    expect(differences).toHaveLength(1);
    expect(differences[0]!.lowest.value).toBeCloseTo(0, 12);
    expect(differences[0]!.highest.value).toBeCloseTo(0.4, 12);
  });

  it("as estimated it is the difference of the report, limits included, crude and like for like", () => {
    const { loss_bounds, effects } = answered(injuries, ["sex"]);
    for (const one of loss_bounds!.differences) {
      const effect = effects.find(
        ({ measure, main, adjusted_for }) =>
          measure === "landmark_difference" && main && adjusted_for.length === one.adjusted_for.length,
      )!;
      for (const figure of ["value", "lower", "upper"] as const)
        expect(one.as_followed[figure]).toBeCloseTo(effect.estimate[figure]!, 10);
    }
    expect(loss_bounds!.differences.map(({ adjusted_for }) => adjusted_for)).toEqual([[], ["sex"]]);
  });

  it("follow-up that is incomplete could move the difference as far as its extremes do", () => {
    const warning = results.warnings.find(({ code }) => code === "completeness-low")!;
    const { lowest, as_followed } = differences[0]!;
    expect(warning.could_move!.how).toBe("worst-and-best-case");
    expect(warning.could_move!.points).toBeCloseTo(as_followed.value! - lowest.value!, 12);
  });

  it("is told in one line", () => {
    expect(told(results)).toContain(
      "Before 13 weeks, 2 injuries with a ring and 2 with tape were lost to follow-up: whatever became of them, without adjustment, between 0 and 40 percentage points more were back with a ring than with tape. Even in these extremes the interval includes no difference, as that of the estimate does.",
    );
  });

  it("seen from the other group it is the same, with the smaller number first", () => {
    const other = resultsOf(
      injuries,
      injuries.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[0]!)),
      {
        question: { clock: "treatment_start" },
        compare: { adjust_for: [], smallest_group: 2, reference: "ring" },
      },
    );
    expect(told(other)).toContain(
      "between 0 and 40 percentage points fewer were back with tape than with a ring.",
    );
  });
});

describe("whose end is known is not lost", () => {
  it("follow-up that ended because the data were closed", () => {
    const late = Array.from({ length: 4 }, (_, n) =>
      injury(`ring-${n}`, {
        injury_date: "2025-06-01",
        full_climbing_date: "",
        last_contact_date: "2025-06-30",
      }),
    );
    const results = answered([
      ...late,
      ...injuries.filter(({ last_contact_date }) => last_contact_date === "2024-11-18"),
    ]);
    expect(results.loss_bounds!.shares.map(({ lost }) => lost)).toEqual([0, 0, 0]);
    expect(results.loss_bounds!.differences[0]!.tipping).toBeNull();
    expect(told(results)).toContain(
      "Nobody that the difference between injuries first treated with a ring and first treated with tape rests on, without adjustment, was lost to follow-up before 13 weeks.",
    );
  });

  it("after the landmark: bounds at week 13 do not move", () => {
    const results = answered(
      injuries.map((row) => (row.injury_id === "tape-1" ? lostOn("tape-1", 100) : row)),
    );
    expect(results.loss_bounds!.shares.find(({ label }) => label === "tape")!.lost).toBe(2);
  });
});

describe("a difference that loss could undo", () => {
  const many = [
    ...Array.from({ length: 30 }, (_, n) => back(`ring-${n}`, 40 + n)),
    ...Array.from({ length: 10 }, (_, n) => followed(`ring-x${n}`)),
    ...Array.from({ length: 15 }, (_, n) => lostOn(`ring-y${n}`, 20 + n)),
    ...Array.from({ length: 20 }, (_, n) => back(`tape-${n}`, 41 + 2 * n)),
    ...Array.from({ length: 25 }, (_, n) => followed(`tape-x${n}`)),
    ...Array.from({ length: 10 }, (_, n) => lostOn(`tape-y${n}`, 20 + n)),
  ];

  it("the factor is where the lower limit is 0, and is told with its inverse", () => {
    const results = answered(many);
    const [one] = results.loss_bounds!.differences;
    const { from, to, factor } = one!.tipping!;
    expect(one!.as_followed.lower).toBeGreaterThan(0);
    expect([from, to]).toEqual(["above", "across"]);
    const around = one!.points.filter(({ figure }) => figure.lower! < 0).map((point) => point.factor);
    expect(factor!).toBeGreaterThan(Math.max(...around));
    expect(factor!).toBeLessThan(1);
    expect(told(results)).toMatch(
      /The interval would come to include no difference if, from their loss on, those lost with a ring returned at 0\.\d+ times and those lost with tape at \d+(\.\d+)? times the rate of those still followed\./,
    );
  });
});
