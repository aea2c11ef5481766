import { describe, expect, it } from "vitest";
import type { ExactEffect } from "../../../src/study/exact-results.js";
import { injury, on, resultsOf, treated } from "./hand-made.js";

/** So many injuries of a grade under a treatment, each back a few days after the one before. */
function injuries(grade: string, treatment: string, n: number) {
  return Array.from({ length: n }, (_, at) => {
    const id = `${grade}-${treatment}-${at}`;
    return {
      injury: injury(id, { grade, full_climbing_date: on(40 + 9 * at + (treatment === "ring" ? 0 : 4)) }),
      treatment: treated(id, treatment),
    };
  });
}

function adjustedOf(rows: ReturnType<typeof injuries>) {
  const { effects, tests } = resultsOf(
    rows.map((row) => row.injury),
    rows.map((row) => row.treatment),
    { compare: { adjust_for: ["grade"], smallest_group: 3 } },
  );
  const adjusted = (measure: ExactEffect["measure"]) =>
    effects.find((one) => one.measure === measure && one.adjusted_for.length > 0 && one.main)!;
  return {
    difference: adjusted("landmark_difference"),
    ratio: adjusted("hazard_ratio"),
    stratified: tests.find(({ method }) => method === "log_rank_stratified")!,
  };
}

const like = [...injuries("2", "ring", 5), ...injuries("2", "tape", 5)];
const unknown = [...injuries("unknown", "ring", 4), ...injuries("unknown", "tape", 4)];
const onesided = injuries("4a", "ring", 6);

describe("injuries that are like none of the others", () => {
  it("leave every adjusted comparison when their grade was not recorded", () => {
    const found = adjustedOf([...like, ...unknown]);
    const alone = adjustedOf(like);
    for (const measure of ["difference", "ratio"] as const) {
      expect(found[measure].n).toEqual({ compared: 5, reference: 5 });
      expect(found[measure].strata_used).toEqual(["grade 2"]);
      expect(found[measure].left_out).toEqual([{ stratum: "grade", n: 8, reason: "missing-covariate" }]);
      expect(found[measure].estimate).toEqual(alone[measure].estimate);
    }
    expect(found.stratified.groups.map(({ n }) => n)).toEqual([5, 5]);
    expect(found.stratified.statistic).toBe(alone.stratified.statistic);
  });

  it("leave the adjusted ratio as they leave the difference when one group alone has their grade", () => {
    const { difference, ratio } = adjustedOf([...like, ...onesided]);
    expect(ratio.left_out).toEqual([{ stratum: "grade 4a", n: 6, reason: "too-few-rows" }]);
    expect(ratio.left_out).toEqual(difference.left_out);
    expect(ratio.n).toEqual(difference.n);
  });

  it("leave neither a ratio nor a difference where no grade holds both groups", () => {
    const { difference, ratio } = adjustedOf([...injuries("2", "tape", 5), ...onesided]);
    expect(difference.estimate).toEqual({ value: null, lower: null, upper: null, reason: "no-overlap" });
    expect(ratio.estimate).toEqual(difference.estimate);
    expect(ratio.p).toBeNull();
  });
});
