import { describe, expect, it } from "vitest";
import { plainWords } from "../../../src/report/plain/plain-words.js";
import { injury, on, resultsOf, treated } from "./hand-made.js";

/** Back after 60 days; the last contact is on day 240 unless the finger ruptures again. */
const returned = (id: string, ruptured: number | null) =>
  injury(id, {
    full_climbing_date: on(60),
    last_contact_date: on(240),
    ...(ruptured === null ? {} : { new_rupture_date: on(ruptured) }),
  });

/** Ten of thirty rupture again: six of fifteen with a ring, on day 90, and four of fifteen with tape, on day 120. */
const injuries = ["ring", "tape"].flatMap((treatment) =>
  Array.from({ length: 15 }, (_, at) => {
    const [again, day] = treatment === "ring" ? [6, 90] : [4, 120];
    return returned(`${treatment}-${at}`, at < again ? day : null);
  }),
);
const treatments = injuries.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[0]!));
const results = resultsOf(injuries, treatments, {
  question: { clock: "treatment_start" },
  compare: { adjust_for: [] },
});
/** The day on which the clock starts. */
const treatmentDay = 1;
const [all, ring, tape] = results.after_return!.groups;

/* By hand: days from the start of the treatment, a day after the injury. */
describe("what came after the return", () => {
  it("counts the new ruptures of those who were back", () => {
    expect([all, ring, tape].map((one) => [one!.returned, one!.ruptured_again])).toEqual([
      [30, 10],
      [15, 6],
      [15, 4],
    ]);
  });

  it("gives their rate over the months in which they could have come", () => {
    const days = 6 * 30 + 4 * 60 + 20 * 180;
    expect(all!.person_months).toBeCloseTo(days / (365.25 / 12), 9);
    expect(all!.rate.value).toBeCloseTo((100 * 10) / (days / (365.25 / 12)), 9);
  });

  it("has the exact limits of a count of 10 where everybody has one finger", () => {
    // exact limits of a count of 10: 4.795389 and 18.390356 (Garwood 1936, Biometrika 28:437; R poisson.test(10))
    const { lower, upper } = all!.rate;
    expect((lower! * all!.person_months!) / 100).toBeCloseTo(4.795389, 5);
    expect((upper! * all!.person_months!) / 100).toBeCloseTo(18.390356, 5);
  });

  it("tells which share is back and has not ruptured again, and which has", () => {
    const shares = (group: typeof all, week: number) => {
      const { back_and_well, ruptured_again } = group!.landmarks.find((one) => one.week === week)!;
      return [back_and_well.value, ruptured_again.value];
    };
    expect(shares(all, 10)).toEqual([1, 0]);
    expect(shares(ring, 13)[0]).toBeCloseTo(9 / 15, 12);
    expect(shares(ring, 13)[1]).toBeCloseTo(6 / 15, 12);
    expect(shares(tape, 13)).toEqual([1, 0]);
    expect(shares(tape, 26)[1]).toBeCloseTo(4 / 15, 12);
  });

  it("follows the shares over time to the last day on which anybody is followed after the return", () => {
    // tape: all back on day 60 of the clock, four of fifteen ruptured again on day 120, the others followed to day 240
    expect(tape!.over_time).toMatchObject({ last_day: 240 - treatmentDay });
    const rounded = tape!.over_time.points.map(({ day, ...shares }) => [
      day + treatmentDay,
      ...Object.values(shares).map((share) => Math.round(15 * share)),
    ]);
    expect(rounded).toEqual([
      [treatmentDay, 15, 0, 0, 0, 0],
      [60, 0, 15, 0, 0, 0],
      [120, 0, 11, 4, 0, 0],
    ]);
    expect(tape!.over_time.number_followed.find(({ day }) => day === 168)).toMatchObject({
      not_yet: 0,
      back_and_well: 11,
    });
  });

  it("stands in the first sentences", () => {
    const words = plainWords(results).flat().join(" ").replace(/\s/g, " ");
    expect(words).toContain("Not every return lasted: of 30 injuries that were back, 10 ruptured again");
    expect(words).toContain("6 of 15 with a ring and 4 of 15 with tape");
  });

  it("is not known to have lasted where nobody is followed after the return", () => {
    const closed = injuries.map((row) => ({ ...row, new_rupture_date: "", last_contact_date: on(60) }));
    const { after_return } = resultsOf(closed, treatments, {
      question: { clock: "treatment_start" },
      compare: { adjust_for: [] },
    });
    const week13 = after_return!.groups[0]!.landmarks.find(({ week }) => week === 13)!;
    expect(week13.back_and_well).toMatchObject({ value: null, reason: "beyond-follow-up" });
    expect(after_return!.groups[0]!.rate).toMatchObject({ value: null, reason: "no-rows" });
    expect(after_return!.groups[0]!.over_time).toMatchObject({
      last_day: 0,
      points: [{ day: 0, not_yet: 1 }],
    });
  });

  it("is not known to have lasted where only those who are not back are followed on", () => {
    const some = injuries.map((row, i) =>
      i % 3 === 0
        ? { ...row, full_climbing_date: "", new_rupture_date: "" }
        : { ...row, new_rupture_date: "", last_contact_date: on(60) },
    );
    const { after_return } = resultsOf(some, treatments, {
      question: { clock: "treatment_start" },
      compare: { adjust_for: [] },
    });
    const of = (week: number) => after_return!.groups[0]!.landmarks.find((one) => one.week === week)!;
    expect(of(6).back_and_well).toMatchObject({ value: 0, reason: null });
    for (const { back_and_well, ruptured_again } of [of(13), of(26)])
      expect([back_and_well, ruptured_again]).toMatchObject(
        Array(2).fill({ value: null, reason: "beyond-follow-up" }),
      );
  });
});
