import { ArgumentError, checkColumn, checkSameLength } from "../shared/arguments.js";
import { indexOfCodes } from "../shared/codes.js";
import { tCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, type NamesOf, number, type OptionsOf, readOptions } from "../shared/options.js";
import { linearRegression } from "./linear-regression.js";
import { type LinearFit, linearOptions } from "./linear-types.js";

export interface BaselineAndFollowUp {
  readonly baseline: ArrayLike<number>;
  readonly followUp: ArrayLike<number>;
  /** Whole numbers. */
  readonly groups: ArrayLike<number>;
  readonly clusters?: ArrayLike<number>;
}

export const baselineAndFollowUpNames: NamesOf<BaselineAndFollowUp> = {
  baseline: true,
  followUp: true,
  groups: true,
  clusters: true,
};

export const adjustedOptions = {
  ...linearOptions,
  /** Code of the group that the others are compared with. Default the smallest. */
  reference: number("code"),
};

export interface AdjustedOptions extends OptionsOf<typeof adjustedOptions> {}

/** A group less the reference group, at equal baseline. */
export interface AdjustedDifference {
  readonly group: number;
  readonly difference: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  readonly df: number;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** What a group's follow-up would be at the mean baseline of all rows. */
export interface AdjustedMean {
  readonly group: number;
  readonly n: number;
  readonly mean: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Why there is no mean, or no interval. */
  readonly reason: Reason | null;
}

export interface BaselineAdjusted {
  readonly reference: number | null;
  readonly meanBaseline: number | null;
  readonly differences: readonly AdjustedDifference[];
  /** All groups, ascending by code. */
  readonly adjustedMeans: readonly AdjustedMean[];
  /** Coefficients in the order intercept, baseline, groups other than the reference. */
  readonly fit: LinearFit;
  readonly reason: Reason | null;
}

function checkRows(columns: BaselineAndFollowUp): void {
  const baseline = { name: "baseline", values: columns.baseline };
  const followUp = { name: "followUp", values: columns.followUp };
  const groups = { name: "groups", values: columns.groups };
  checkSameLength(followUp, baseline);
  checkSameLength(groups, baseline);
  checkColumn(baseline, "finite");
  checkColumn(followUp, "finite");
  checkColumn(groups, "code");
}

/** Value and error of a linear combination of coefficients; null where one of them is. */
function combination(fit: LinearFit, along: readonly number[]): Pick<AdjustedMean, "mean" | "standardError"> {
  let mean = 0;
  let variance = 0;
  for (let i = 0; i < along.length; i++) {
    const a = along[i]!;
    if (a === 0) continue;
    const coefficient = fit.coefficients[i];
    if (coefficient == null) return { mean: null, standardError: null };
    mean += a * coefficient;
    for (let j = 0; j < along.length; j++) variance += a * along[j]! * (fit.covariance[i]?.[j] ?? 0);
  }
  return { mean, standardError: fit.reason === null ? Math.sqrt(variance) : null };
}

/** Why an adjusted mean has no interval. */
function reasonForNoMean(
  fit: LinearFit,
  adjusted: {
    readonly mean: number | null;
    readonly standardError: number | null;
    readonly critical: number;
  },
): Reason | null {
  if (fit.reason !== null) return fit.reason;
  if (adjusted.mean === null) return "collinear";
  if (adjusted.standardError === null || adjusted.critical === 0) return "too-few-rows";
  return adjusted.standardError > 0 ? null : "no-variance";
}

/**
 * Comparison of groups at follow-up, adjusted for baseline (analysis of covariance): follow-up regressed on baseline and groups.
 *
 * The difference is the same whether follow-up or change is regressed. One slope for all groups is assumed. Variance as in
 * linearRegression; intervals and p by Student's t.
 *
 * @returns nulls with `no-rows`, or `one-group`, or `too-few-rows` where nothing is left to estimate the spread from
 * @throws ArgumentError naming the column and index of a value at fault, or a reference that is no group
 * @source Vickers & Altman 2001, BMJ 323:1123
 */
export function baselineAdjusted(
  columns: BaselineAndFollowUp,
  options: AdjustedOptions = {},
): BaselineAdjusted {
  checkColumnNames(baselineAndFollowUpNames, { columns });
  const { reference: asked, ...ofFit } = readOptions(adjustedOptions, options);
  checkRows(columns);
  const { codes } = indexOfCodes(columns.groups);
  const n = columns.baseline.length;
  const reference = asked ?? codes[0] ?? null;
  if (asked !== undefined && !codes.includes(asked))
    throw new ArgumentError({
      argument: "reference",
      index: null,
      expected: `one of the groups (${codes.join(", ")})`,
      found: asked,
    });
  const others = codes.filter((code) => code !== reference);
  const fit = linearRegression(
    {
      response: columns.followUp,
      covariates: {
        names: ["baseline", ...others.map((code) => `group ${code}`)],
        columns: [
          columns.baseline,
          ...others.map((code) => Float64Array.from(columns.groups, (group) => (group === code ? 1 : 0))),
        ],
      },
      ...(columns.clusters !== undefined && { clusters: columns.clusters }),
    },
    ofFit,
  );
  const meanBaseline = n > 0 ? Array.from(columns.baseline).reduce((sum, value) => sum + value, 0) / n : null;
  // an adjusted mean takes the fewest degrees of freedom among its terms
  const fewest = fit.termDf.reduce<number>((least, df) => Math.min(least, df ?? least), fit.df);
  const critical = fit.reason === null && fewest > 0 ? tCritical(fit.level, fewest) : 0;
  const baselineKnown = fit.coefficients[1] != null;
  return {
    reference,
    meanBaseline,
    differences: others.map((group, i): AdjustedDifference => {
      const at = i + 2;
      return {
        group,
        difference: fit.coefficients[at] ?? null,
        standardError: fit.standardErrors[at] ?? null,
        lower: fit.lower[at] ?? null,
        upper: fit.upper[at] ?? null,
        t: fit.t[at] ?? null,
        df: fit.termDf[at] ?? fit.df,
        p: fit.p[at] ?? null,
        reason: fit.reasons[at] ?? null,
      };
    }),
    adjustedMeans: codes.map((group): AdjustedMean => {
      const along = [
        1,
        baselineKnown ? (meanBaseline ?? 0) : 0,
        ...others.map((code) => (code === group ? 1 : 0)),
      ];
      const { mean, standardError } = combination(fit, along);
      const reason = reasonForNoMean(fit, { mean, standardError, critical });
      const half = reason === null ? critical * standardError! : null;
      return {
        group,
        n: Array.from(columns.groups).filter((code) => code === group).length,
        mean,
        standardError,
        lower: half === null ? null : mean! - half,
        upper: half === null ? null : mean! + half,
        reason,
      };
    }),
    fit,
    reason: n === 0 ? "no-rows" : codes.length < 2 ? "one-group" : fit.reason,
  };
}
