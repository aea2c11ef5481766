import { expect, it } from "vitest";
import { permutedLogRank } from "../../../src/statistics/comparison/index.js";

it("the example in the comment of permutedLogRank is what comes out: two of six permutations are as extreme", () => {
  const found = permutedLogRank({ times: [1, 2, 3, 4], events: [1, 1, 1, 1], groups: [0, 0, 1, 1] });
  expect(found.p).toBeCloseTo(1 / 3, 14);
  expect(found).toMatchObject({ method: "exact", permutations: 6, monteCarloError: 0 });
});
