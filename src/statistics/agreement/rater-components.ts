import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { clusterIndex } from "../shared/clusters.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  number,
  type OptionsOf,
  oneOf,
  readOptions,
} from "../shared/options.js";
import { type ErrorOfReading, errorOfReading } from "./measurement-error.js";
import {
  type ComponentCorrelation,
  type ComponentShares,
  componentCovariance,
  shareWithInterval,
} from "./rater-intervals.js";
import { likelihoodAt } from "./rater-likelihood.js";
import { type RaterReadings, type RaterSums, raterReadingsNames, raterSumsOf } from "./rater-patterns.js";
import { solveRatios } from "./rater-solution.js";

export interface RaterComponents {
  readonly subjects: number;
  readonly raters: number;
  readonly readings: number;
  readonly model: "one-way" | "two-way";
  readonly mean: number | null;
  /** Variances; `raters` is 0 in the one-way model, where it is part of the residual. */
  readonly variances: ComponentShares | null;
  /** Of the variances; null where the variance is 0. */
  readonly standardErrors: { readonly [Part in keyof ComponentShares]: number | null } | null;
  /** s / (s + (r + e) / m): m different raters read, any raters of the kind. */
  readonly agreement: ComponentCorrelation;
  /** s / (s + e / m): the same raters read every subject. */
  readonly consistency: ComponentCorrelation;
  /** Number of readings whose mean the correlations are for, m. */
  readonly averaged: number;
  /** Of one reading by any rater, and by one and the same. */
  readonly agreementError: ErrorOfReading | null;
  readonly consistencyError: ErrorOfReading | null;
  readonly logLikelihood: number | null;
  /** Evaluations of the likelihood, and the steepest slope left of the deviance by a ratio times the ratio. */
  readonly evaluations: number;
  readonly gradient: number | null;
  readonly level: number;
  readonly reason: Reason | null;
}

export const raterComponentsOptions = {
  /** "two-way" (default): raters cross subjects, each has a level of its own; "one-way": raters not told apart. */
  model: oneOf(["one-way", "two-way"], "two-way"),
  /** Correlations for the mean of this many readings; default 1. */
  averaged: number("positive count", 1),
  /** Default 0.95. */
  level: confidenceLevel,
  /** Of the minimal detectable change; default 0.95. */
  changeLevel: confidenceLevel,
};

export interface RaterComponentsOptions extends OptionsOf<typeof raterComponentsOptions> {}

/**
 * Variances of subjects, raters and residual by restricted maximum likelihood, where raters read some subjects only or several times, and
 * the intraclass correlations and errors of measurement that follow.
 *
 * Model: mean + subject + rater + residual, independent normal with variances s, r, e, none negative. A complete table with positive
 * estimates gives those of `intraclassCorrelation`. Standard errors from the expected information; interval of a correlation by the
 * delta method on the scale log((1 + (k-1) rho) / (1 - rho)) / 2, k readings a subject on average over m; of the errors of measurement by
 * Satterthwaite's degrees of freedom. With two or three raters r is hardly known and these intervals are too narrow: for a complete
 * table `intraclassCorrelation` has better ones. A variance of 0 is taken as known to be 0.
 *
 * @param columns values, whole-number subjects and raters, equally long; a missing reading is a row left out
 * @returns nulls with `no-rows`; `too-few-rows` for fewer than two subjects (or, two-way, raters), or without more readings than
 *   subjects and raters need; `no-variance` where nothing is left for the residual; `collinear` where subjects and raters cannot be
 *   told apart. A correlation of 0, where subjects do not differ more than readings do, has no interval (`no-variance`)
 * @throws ArgumentError naming the column and index of a value at fault, or an option out of range
 * @source Patterson & Thompson 1971, Biometrika 58:545; McGraw & Wong 1996, Psychol Methods 1:30; Satterthwaite 1946, Biometrics 2:110;
 *   scale of the interval: Fisher 1925, Statistical Methods for Research Workers
 */
export function raterComponents(
  columns: RaterReadings,
  options: RaterComponentsOptions = {},
): RaterComponents {
  checkColumnNames(raterReadingsNames, { columns });
  const { model, averaged, level, changeLevel } = readOptions(raterComponentsOptions, options);
  checkReadings(columns);
  const z = normalCritical(level);
  const factor = normalCritical(changeLevel) * Math.SQRT2;
  const { values } = columns;
  const indices = {
    subjects: clusterIndex({ times: values, clusters: columns.subjects }),
    raters: clusterIndex({ times: values, clusters: columns.raters }),
  };
  const counted = { subjects: indices.subjects.count, raters: indices.raters.count, readings: values.length };
  const common = { ...counted, model, averaged, level };
  const tooFew = reasonTooFew(counted, model);
  if (tooFew !== null) return { ...common, ...nothing(tooFew) };
  const together = { of: new Int32Array(values.length), count: 1 };
  const sums = raterSumsOf(values, { ...indices, raters: model === "one-way" ? together : indices.raters });
  const largest = Array.from(values).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rounding = values.length * (8 * Number.EPSILON * largest) ** 2;
  // without any spread within subjects the likelihood has no end
  if (sums.within <= rounding) return { ...common, ...nothing("no-variance") };
  if (!toldApart(sums, model)) return { ...common, ...nothing("collinear") };
  const solution = solveRatios(sums, { model });
  // subjects and raters may explain all readings but for rounding
  const residual = solution === null ? 0 : solution.at.residualVariance * values.length;
  if (solution === null || !(residual > rounding)) return { ...common, ...nothing("no-variance") };
  const { ratios, at, evaluations } = solution;
  const e = at.residualVariance;
  const variances = { subjects: ratios.subjects * e, raters: ratios.raters * e, residual: e };
  const covariance = componentCovariance({ at, ratios, readings: values.length }, { model });
  if (covariance === null) return { ...common, ...nothing("collinear") };
  const errorOf = (parts: readonly ("raters" | "residual")[]): ErrorOfReading => {
    const variance = parts.reduce((sum, part) => sum + variances[part], 0);
    const doubt = parts.reduce((sum, one) => sum + parts.reduce((s, two) => s + covariance(one, two), 0), 0);
    return errorOfReading({ variance, df: (2 * variance ** 2) / doubt }, { level, factor });
  };
  const scale = { averaged, z, readingsASubject: values.length / counted.subjects };
  const deviation = (part: keyof ComponentShares): number | null =>
    variances[part] > 0 ? Math.sqrt(covariance(part, part)) : null;
  return {
    ...common,
    mean: at.mean + sumOf(values) / values.length,
    variances,
    standardErrors: {
      subjects: deviation("subjects"),
      raters: deviation("raters"),
      residual: deviation("residual"),
    },
    agreement: shareWithInterval({ variances, covariance }, { ...scale, noise: ["raters", "residual"] }),
    consistency: shareWithInterval({ variances, covariance }, { ...scale, noise: ["residual"] }),
    agreementError: errorOf(["raters", "residual"]),
    consistencyError: errorOf(["residual"]),
    logLikelihood: -at.deviance / 2,
    evaluations,
    gradient: Math.max(
      Math.abs(ratios.subjects * at.slopes.subjects),
      Math.abs(ratios.raters * at.slopes.raters),
    ),
    reason: null,
  };
}

const sumOf = (values: ArrayLike<number>): number =>
  Array.from(values).reduce((sum, value) => sum + value, 0);

function checkReadings({ values, subjects, raters }: RaterReadings): void {
  const first = { name: "values", values };
  checkColumn(first, "finite");
  for (const [name, codes] of [
    ["subjects", subjects],
    ["raters", raters],
  ] as const) {
    checkSameLength({ name, values: codes }, first);
    checkColumn({ name, values: codes }, "code");
  }
}

/** Does the design itself tell the variances apart? Seen from the information where all are equal, whatever the readings. */
function toldApart(sums: RaterSums, model: "one-way" | "two-way"): boolean {
  const ratios = { subjects: 1, raters: model === "two-way" ? 1 : 0 };
  const at = likelihoodAt(sums, ratios);
  return componentCovariance({ at, ratios, readings: sums.readings }, { model }) !== null;
}

/** Residuals need more readings than there are subjects and, two-way, further raters. */
function reasonTooFew(
  { subjects, raters, readings }: Pick<RaterComponents, "subjects" | "raters" | "readings">,
  model: "one-way" | "two-way",
): Reason | null {
  if (readings === 0) return "no-rows";
  if (subjects < 2 || readings <= subjects) return "too-few-rows";
  return model === "two-way" && (raters < 2 || readings <= subjects + raters - 1) ? "too-few-rows" : null;
}

function nothing(reason: Reason) {
  const none = { estimate: null, standardError: null, lower: null, upper: null, reason };
  return {
    mean: null,
    variances: null,
    standardErrors: null,
    agreement: none,
    consistency: none,
    agreementError: null,
    consistencyError: null,
    logLikelihood: null,
    evaluations: 0,
    gradient: null,
    reason,
  };
}
