import { describe, expect, it } from "vitest";
import {
  accuracyOfCounts,
  chooseThreshold,
  compareAreas,
  rocArea,
  rocCurve,
} from "../../../../src/statistics/agreement/index.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const rel = 1e-9;
const rows = referenceRows("agreement_more", "haemorrhage.csv");
const states = numbers(rows, "poor");
const markers = ["wfns", "s100b", "ndka"] as const;
const marker = (name: (typeof markers)[number]) => numbers(rows, name);

describe("area under the ROC curve: Turck et al. 2010 against R package pROC 1.18.0", () => {
  it.each(markers)("%s: area, DeLong error and limits; logit limits written out in R", (name) => {
    const expected = referenceCase("agreement_more", "roc").expected.areas[name];
    const found = rocArea({ values: marker(name), states });
    expectClose(found.area, expected.area, { rel, what: "area" });
    expectClose(found.standardError, expected.se, { rel, what: "error" });
    expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
    const logit = rocArea({ values: marker(name), states }, { interval: "logit" });
    const limits = referenceCase("agreement_more", "roc_logit").expected[name].ci95;
    expectAllClose([logit.lower, logit.upper], limits, { rel, what: "logit limits" });
  });

  it.each([
    ["wfns", "s100b"],
    ["wfns", "ndka"],
    ["ndka", "s100b"],
  ] as const)("paired comparison of %s and %s", (one, two) => {
    const expected = referenceCase("agreement_more", "roc").expected.comparisons[`${one}_${two}`];
    const found = compareAreas({ first: marker(one), second: marker(two), states });
    expectClose(found.difference, expected.difference, { rel, what: "difference" });
    expectClose(found.z, expected.z, { rel, what: "z" });
    expectClose(found.p, expected.p, { rel, what: "p" });
    expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
  });

  it("the threshold with the largest Youden index: between two readings, the same counts", () => {
    const expected = referenceCase("agreement_more", "roc").expected.youden_s100b;
    const found = chooseThreshold({ values: marker("s100b"), states }, { seed: 1, replicates: 20 });
    expectClose((found.threshold! + found.negativeNeighbour!) / 2, expected.threshold, {
      rel,
      what: "threshold",
    });
    expect(found.accuracy?.counts).toEqual({
      truePositive: expected.tp,
      falsePositive: expected.fp,
      falseNegative: expected.fn,
      trueNegative: expected.tn,
    });
    expectClose(found.sensitivity?.apparent, expected.sensitivity, { rel, what: "sensitivity" });
    expectClose(found.specificity?.apparent, expected.specificity, { rel, what: "specificity" });
  });

  it("several fingers a person: Obuchowski 1997, Biometrics 53:567, over all pairs in R 4.2.2", () => {
    const { expected } = referenceCase("agreement_more", "roc_clustered");
    const fingers = referenceRows("agreement_more", "clustered_fingers.csv");
    const columns = {
      first: numbers(fingers, "first"),
      second: numbers(fingers, "second"),
      states: numbers(fingers, "injured"),
      clusters: numbers(fingers, "person"),
    };
    const found = compareAreas(columns);
    expectClose(found.first.area, expected.first.area, { rel, what: "first area" });
    expectClose(found.first.standardError, expected.first.se, { rel, what: "first error" });
    expectClose(found.second.area, expected.second.area, { rel, what: "second area" });
    expectClose(found.second.standardError, expected.second.se, { rel, what: "second error" });
    expectClose(found.standardError, expected.se_difference, { rel, what: "error of the difference" });
    expectClose(found.p, expected.p, { rel, what: "p" });
  });

  it("109 scans on five grades, Hanley & McNeil 1982, Radiology 143:29 (from memory): area 0.893", () => {
    const normal = [33, 6, 6, 11, 2];
    const abnormal = [3, 2, 2, 11, 33];
    const spread = (counts: readonly number[]) =>
      counts.flatMap((count, at) => new Array<number>(count).fill(at + 1));
    const values = [...spread(normal), ...spread(abnormal)];
    const scanned = values.map((_, at) => (at < 58 ? 0 : 1));
    expectClose(rocArea({ values, states: scanned }).area, 0.893, { rel: 0, abs: 5e-4, what: "area" });
    const curve = rocCurve({ values, states: scanned });
    expectAllClose(curve.thresholds, [null, 5, 4, 3, 2, 1], { rel, what: "thresholds" });
    expectAllClose(curve.truePositives, [0, 33, 44, 46, 48, 51], { rel, what: "true positives" });
  });
});

describe("accuracy of a test", () => {
  it("likelihood ratios, by hand from the formula of Simel et al. 1991, J Clin Epidemiol 44:763", () => {
    const counts = { truePositive: 60, falsePositive: 30, falseNegative: 40, trueNegative: 70 };
    const found = accuracyOfCounts(counts, { prevalence: 0.2 });
    const error = Math.sqrt(1 / 60 - 1 / 100 + 1 / 30 - 1 / 100);
    const z = 1.959963984540054;
    expectClose(found.positiveRatio.estimate, 2, { rel, what: "LR+" });
    expectClose(found.positiveRatio.lower, 2 * Math.exp(-z * error), { rel, what: "lower" });
    expectClose(found.positiveRatio.upper, 2 * Math.exp(z * error), { rel, what: "upper" });
    expectClose(found.negativeRatio.estimate, 4 / 7, { rel, what: "LR-" });
    // odds 1 to 4 times the ratio
    expectClose(found.atPrevalence?.positivePredictive.estimate, 0.5 / 1.5, {
      rel,
      what: "positive predictive",
    });
    expectClose(found.atPrevalence?.negativePredictive.estimate, 7 / 8, { rel, what: "negative predictive" });
  });

  it("81 of 263 and 15 of 148: Wilson intervals of Newcombe 1998, Stat Med 17:857, as sensitivity and specificity", () => {
    const found = accuracyOfCounts({
      truePositive: 81,
      falseNegative: 182,
      trueNegative: 15,
      falsePositive: 133,
    });
    expectAllClose([found.sensitivity.lower, found.sensitivity.upper], [0.2553, 0.3662], {
      rel: 0,
      abs: 5e-5,
      what: "sensitivity",
    });
    expectAllClose([found.specificity.lower, found.specificity.upper], [0.0624, 0.1605], {
      rel: 0,
      abs: 5e-5,
      what: "specificity",
    });
  });
});
