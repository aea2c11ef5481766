import type { Reason } from "../../shared/figure.js";
import { termsWithout } from "./fixed-effects.js";
import type { GroupSums } from "./group-sums.js";
import type { MixedFit, MixedOptions } from "./mixed-types.js";
import { noFigure } from "./variance-figures.js";

/** Reasons that leave no fit at all; each is a status of its own. */
type Obstacle = Extract<Reason, MixedFit["status"]>;

const isStatus = (reason: Reason): reason is Obstacle =>
  ["no-rows", "too-few-rows", "one-group", "no-variance"].includes(reason);

/** What is said where variances within and between groups cannot both be estimated. */
export function fitWithout(of: {
  readonly names: readonly string[];
  readonly sums: GroupSums;
  readonly reason: Reason;
  readonly settings: Required<MixedOptions>;
  readonly hasSlope: boolean;
}): MixedFit {
  const { names, sums, reason, settings, hasSlope } = of;
  const nothing = names.map(() => null);
  const none = noFigure(reason);
  return {
    names,
    coefficients: nothing,
    standardErrors: nothing,
    terms: termsWithout(names, reason),
    covariance: names.map(() => nothing),
    adjustedCovariance: settings.method === "reml" ? names.map(() => nothing) : null,
    jointTests: settings.together.map((terms) => ({
      terms,
      f: null,
      numeratorDf: terms.length,
      denominatorDf: null,
      p: null,
      reason,
    })),
    components: {
      interceptDeviation: none,
      slopeDeviation: hasSlope ? none : null,
      correlation: hasSlope ? none : null,
      residualDeviation: none,
      intraclassCorrelation: hasSlope ? null : none,
    },
    varianceTest: { statistic: null, df: hasSlope ? 2 : 1, p: null, logLikelihoodWithout: null, reason },
    predictions: sums.codes.map((group, g) => ({
      group,
      n: sums.counts[g]!,
      intercept: null,
      interceptDeviation: null,
      slope: null,
      slopeDeviation: null,
    })),
    logLikelihood: null,
    aic: null,
    method: settings.method,
    inference: settings.inference,
    level: settings.level,
    n: sums.n,
    groups: sums.codes.length,
    rank: sums.p,
    iterations: 0,
    converged: false,
    finalGradient: null,
    status: isStatus(reason) ? reason : "no-variance",
  };
}
