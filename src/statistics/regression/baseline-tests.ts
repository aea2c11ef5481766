import { indexOfCodes } from "../shared/codes.js";
import type { Reason } from "../shared/figure.js";
import { checkColumnNames, readOptions } from "../shared/options.js";
import {
  type AdjustedOptions,
  adjustedOptions,
  type BaselineAndFollowUp,
  baselineAdjusted,
  baselineAndFollowUpNames,
} from "./baseline-adjusted.js";
import { type FTest, testTogether } from "./linear-hypothesis.js";
import { linearRegression } from "./linear-regression.js";

export interface BaselineTests {
  /** All groups equal at the same baseline. */
  readonly groups: FTest;
  /** One slope on baseline for all groups, as the adjusted comparison assumes. */
  readonly slopes: FTest;
}

const noTest = (reason: Reason): FTest => ({
  f: null,
  numeratorDf: 0,
  denominatorDf: 0,
  p: null,
  reason,
});

/**
 * Tests beside a comparison adjusted for baseline (analysis of covariance): of all groups together, and of equal slopes.
 *
 * Groups: F of the group terms in baselineAdjusted. Slopes: F of the products of group and baseline (less its mean, for the digits) when they are
 * added. Variance as in linearRegression.
 *
 * @returns nulls with the reason where there is one group, or where too few rows are left
 * @throws ArgumentError naming the column and index of a value at fault, or a reference that is no group
 * @source Cochran 1957, Biometrics 13:261
 * @example
 * // slopes of 1 and -1: one adjusted difference would not describe all baselines
 * baselineTests({
 *   baseline: [1, 2, 3, 4, 1, 2, 3, 4], followUp: [2, 1, 2, 5, 5, 2, 1, 2], groups: [0, 0, 0, 0, 1, 1, 1, 1],
 * }).slopes.f // => 5
 */
export function baselineTests(columns: BaselineAndFollowUp, options: AdjustedOptions = {}): BaselineTests {
  checkColumnNames(baselineAndFollowUpNames, { columns });
  const { reference: _, ...ofFit } = readOptions(adjustedOptions, options);
  const adjusted = baselineAdjusted(columns, options);
  if (adjusted.reference === null) return { groups: noTest("no-rows"), slopes: noTest("no-rows") };
  const others = indexOfCodes(columns.groups).codes.filter((code) => code !== adjusted.reference);
  if (others.length === 0) return { groups: noTest("one-group"), slopes: noTest("one-group") };
  const named = others.map((code) => `group ${code}`);
  const centre = adjusted.meanBaseline ?? 0;
  const baseline = Float64Array.from(columns.baseline, (value) => value - centre);
  const inGroup = others.map((code) =>
    Float64Array.from(columns.groups, (group) => (group === code ? 1 : 0)),
  );
  const products = named.map((name) => `${name} x baseline`);
  const withProducts = linearRegression(
    {
      response: columns.followUp,
      covariates: {
        names: ["baseline", ...named, ...products],
        columns: [
          baseline,
          ...inGroup,
          ...inGroup.map((own) => own.map((value, row) => value * baseline[row]!)),
        ],
      },
      ...(columns.clusters !== undefined && { clusters: columns.clusters }),
    },
    ofFit,
  );
  return { groups: testTogether(adjusted.fit, named), slopes: testTogether(withProducts, products) };
}
