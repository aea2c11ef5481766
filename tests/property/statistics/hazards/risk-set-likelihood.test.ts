import { describe, expect, it } from "vitest";
import { layOut } from "../../../../src/statistics/hazards/layout/layout.js";
import { likelihoodOf } from "../../../../src/statistics/hazards/likelihood/likelihood.js";
import { riskSetLikelihoodOf } from "../../../../src/statistics/hazards/likelihood/risk-set-likelihood.js";
import { seededGenerator } from "../../../../src/statistics/index.js";
import { drawn } from "./by-definition.js";

describe("likelihood risk set by risk set against running sums, 40 drawn cohorts", () => {
  it.each(["efron", "breslow"] as const)("likelihood, score and information, %s", (ties) => {
    for (let draw = 0; draw < 40; draw++) {
      const layout = layOut(drawn(seededGenerator(35, draw), { weights: "some" }));
      const beta = Float64Array.of(0.4, -0.7);
      const found = riskSetLikelihoodOf(layout, ties)(beta, "all");
      const running = likelihoodOf(layout, ties);
      const sums = running(beta, "all");
      expect(found.logLikelihood).toBeCloseTo(sums.logLikelihood, 9);
      sums.information.forEach((value, at) => {
        expect(found.information[at]).toBeCloseTo(value, 9);
      });
      const score = sums.score.slice();
      // the score alone is summed in another way
      const alone = running(beta, "score").score;
      score.forEach((value, j) => {
        expect(found.score[j]).toBeCloseTo(value, 9);
        expect(alone[j]).toBeCloseTo(value, 9);
      });
    }
  });
});
