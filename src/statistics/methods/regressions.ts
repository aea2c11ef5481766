import { citations as c } from "../citations.js";
import type { Method } from "./method.js";

export const regressions: readonly Method[] = [
  {
    name: "linear regression, four variances",
    functions: ["linearRegression"],
    files: ["regression/linear-regression.ts", "regression/reduced-bias.ts"],
    checkedAgainst: "nist, continuous, few_clusters",
    sources: [c.householder1958, c.pustejovskyTipton2018],
  },
  {
    name: "follow-up adjusted for baseline",
    functions: ["baselineAdjusted"],
    files: ["regression/baseline-adjusted.ts"],
    checkedAgainst: "continuous",
    sources: [c.vickersAltman2001],
  },
  {
    name: "logistic regression, separation, profile intervals, clusters; penalised",
    functions: ["logisticRegression", "predictedProbabilities"],
    files: ["regression/logistic/"],
    checkedAgainst: "logistic, logistic_more",
    sources: [c.albertAnderson1984, c.firth1993, c.heinzeSchemper2002],
  },
  {
    name: "several categories",
    functions: ["multinomialRegression"],
    files: ["regression/logistic/multinomial-regression.ts"],
    checkedAgainst: "logistic_more",
    sources: [c.theil1969],
  },
  {
    name: "linear mixed model, intercepts or intercepts and slopes",
    functions: ["mixedRegression"],
    files: ["regression/mixed/"],
    checkedAgainst: "mixed, mixed_slope",
    sources: [c.lairdWare1982, c.pattersonThompson1971],
  },
  {
    name: "small-sample inference of fixed effects",
    functions: ["mixedRegression"],
    files: ["regression/mixed/small-sample.ts"],
    checkedAgainst: "mixed, mixed_slope",
    sources: [c.kenwardRoger1997, c.faiCornelius1996],
  },
  {
    name: "several coefficients together; group and equal-slopes tests",
    functions: ["testTogether", "baselineTests"],
    files: ["regression/"],
    checkedAgainst: "nist, continuous",
    sources: [c.cochran1957],
  },
];
