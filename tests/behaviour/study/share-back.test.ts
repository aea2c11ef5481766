import { describe, expect, it } from "vitest";
import { plainWords } from "../../../src/report/plain/plain-words.js";
import type { ShareBack } from "../../../src/study/plan.js";
import { injury, on, resultsOf, treated } from "./hand-made.js";

const back = (id: string, day: number) => injury(id, { full_climbing_date: on(day) });
const gaveUp = (id: string, day: number) =>
  injury(id, { full_climbing_date: "", gave_up_date: on(day), end_status: "gave_up" });

/** Ten under each treatment, followed to an end: two give up under a ring, four under tape; all others are back by week 13. */
const injuries = [
  ...[40, 45, 50, 55, 60, 65, 70, 75].map((day) => back(`ring-${day}`, day)),
  ...[30, 48].map((day) => gaveUp(`ring-${day}`, day)),
  ...[42, 47, 52, 57, 62, 67].map((day) => back(`tape-${day}`, day)),
  ...[20, 31, 49, 55].map((day) => gaveUp(`tape-${day}`, day)),
];
const treatments = injuries.map(({ injury_id }) => treated(injury_id!, injury_id!.split("-")[0]!));

const answered = (share_back?: ShareBack) =>
  resultsOf(injuries, treatments, {
    question: { clock: "treatment_start", ...(share_back && { share_back }) },
    compare: { adjust_for: [] },
  });

function readOff(results: ReturnType<typeof answered>) {
  const curves = results.curves.find(({ family }) => family === "compared")!.curves;
  const effect = (measure: string) =>
    results.effects.find((one) => one.measure === measure && one.main)!.estimate.value!;
  return {
    curves,
    shares: curves.map(({ landmarks }) => landmarks.find(({ week }) => week === 13)!.returned.value),
    means: curves.map(({ restricted_mean }) => restricted_mean.days.value!),
    difference: effect("landmark_difference"),
    difference_of_means: effect("restricted_mean_difference"),
  };
}

/** The plain words with every space a plain one. */
const told = (results: ReturnType<typeof answered>) =>
  plainWords(results).flat().join(" ").replace(/\s/g, " ");

/* Everybody is followed to an end, so shares and means are those of counting, by hand. */
describe("the share back of everyone", () => {
  const found = readOff(answered());

  it("counts whoever gave up as not back: 8 and 6 of 10", () => {
    expect(found.shares[0]).toBeCloseTo(0.8, 12);
    expect(found.shares[1]).toBeCloseTo(0.6, 12);
    expect(found.difference).toBeCloseTo(0.2, 12);
  });

  it("counts them as not back up to the horizon in the mean time", () => {
    // days from the start of the treatment, a day after the injury
    const mean = (days: readonly number[], gave: number) =>
      (days.reduce((sum, day) => sum + day - 1, 0) + gave * 182) / 10;
    expect(found.means[0]).toBeCloseTo(mean([40, 45, 50, 55, 60, 65, 70, 75], 2), 9);
    expect(found.means[1]).toBeCloseTo(mean([42, 47, 52, 57, 62, 67], 4), 9);
    expect(found.difference_of_means).toBeCloseTo(found.means[0]! - found.means[1]!, 9);
  });

  it("never reaches three quarters where a quarter gave up", () => {
    const tape = found.curves[1]!.quantiles.find(({ share }) => share === 0.75)!.days;
    expect(tape).toMatchObject({ value: null, reason: "not-reached" });
  });

  it("adds up with the shares that gave up, day by day, to those whose course is settled", () => {
    for (const { points, other_ends, n } of found.curves) {
      const [gave] = other_ends;
      expect(gave).toMatchObject({ end: "gave_up" });
      for (const { day, returned } of points) {
        const settled = points.reduce(
          (sum, point) => (point.day <= day ? sum + point.events + point.competing : sum),
          0,
        );
        const share = gave!.points.findLast((point) => point.day <= day)?.share ?? 0;
        expect(returned + share).toBeCloseTo(settled / n, 12);
      }
    }
  });

  it("is told in the plain words with how those who gave up count", () => {
    const words = told(answered());
    expect(words).toContain("an estimated 80 % were back to full climbing by 13 weeks");
    expect(words).toContain("whoever gave up climbing before being back counts as not back");
  });
});

describe("the share back if there were no competing end", () => {
  it("is a supposition, and called so", () => {
    const results = answered("if_no_competing_end");
    expect(readOff(results).shares).toEqual([1, 1]);
    const words = told(results);
    expect(words).toMatch(/If nobody gave up climbing, had a new rupture of the finger or died: of the 10/);
    expect(words).toContain("would be back to full climbing");
    expect(words).not.toContain("an estimated 100 % were back");
  });

  it("leaves who gave up and when as they were", () => {
    const [one, other] = [answered(), answered("if_no_competing_end")];
    expect(readOff(other).curves.map(({ other_ends }) => other_ends)).toEqual(
      readOff(one).curves.map(({ other_ends }) => other_ends),
    );
  });
});
