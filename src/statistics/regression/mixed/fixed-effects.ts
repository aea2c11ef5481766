import { functionalOf } from "../../linear/orthonormal-basis.js";
import { factorSymmetric, quadraticForm } from "../../linear/symmetric.js";
import { nothingTested } from "../../shared/covariates.js";
import {
  chiSquareUpperTail,
  fUpperTail,
  normalCritical,
  normalTwoSided,
  tCritical,
  tTwoSided,
} from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { quadraticProduct } from "../logistic/products.js";
import type { FoundVariance } from "./find-variance.js";
import type { GroupSums } from "./group-sums.js";
import type { VarianceInformation } from "./information.js";
import type { JointTest, MixedFit, MixedTerm } from "./mixed-types.js";
import { type FTest, kenwardRoger, satterthwaite } from "./small-sample.js";

/** All that the fixed effects' inference rests on. */
export interface FixedSetting {
  readonly sums: GroupSums;
  readonly found: FoundVariance;
  readonly information: VarianceInformation;
  readonly adjusted: Float64Array | null;
  readonly inference: MixedFit["inference"];
  readonly names: readonly string[];
  readonly level: number;
}

type Matrix = (number | null)[][];

/** Each name's coefficient as a linear function on the basis; null for a collinear one. */
export function functionalsOf({
  sums,
  names,
}: Pick<FixedSetting, "sums" | "names">): (Float64Array | null)[] {
  const place = new Map(sums.basis.kept.map((column, k) => [column, k]));
  return names.map((_, column) => {
    const k = place.get(column);
    return k === undefined ? null : functionalOf(sums.basis, k);
  });
}

const estimateOf = ({ sums, found }: FixedSetting, along: Float64Array): number =>
  along.reduce((sum, x, k) => sum + x * (sums.leastSquares[k]! + found.at.blocks.c[k]!), 0);

/** A covariance on the basis as one by name. */
export function byName(functionals: readonly (Float64Array | null)[], matrix: Float64Array): Matrix {
  const kept = functionals.flatMap((one) => (one === null ? [] : [one]));
  const values = quadraticProduct(kept, matrix);
  const place = new Map(kept.map((one, i) => [one, i]));
  return functionals.map((one) =>
    functionals.map((other) =>
      one === null || other === null ? null : values[place.get(one)! * kept.length + place.get(other)!]!,
    ),
  );
}

function testOf(setting: FixedSetting, along: readonly Float64Array[]): FTest | null {
  const { information, found, adjusted, inference } = setting;
  const values = Float64Array.from(along, (one) => estimateOf(setting, one));
  if (inference === "satterthwaite") return satterthwaite(information, { along, values, found });
  return adjusted === null ? null : kenwardRoger(information, { along, values, adjusted });
}

const collinear = (name: string): MixedTerm => ({
  name,
  coefficient: null,
  standardError: null,
  lower: null,
  upper: null,
  t: null,
  df: null,
  p: null,
  reason: "collinear",
});

/** The covariance that errors come from. */
const covarianceUsed = ({ inference, adjusted, information }: FixedSetting): Float64Array | null =>
  inference === "kenward-roger" ? adjusted : information.covariance;

function termOf(
  setting: FixedSetting,
  one: { readonly name: string; readonly along: Float64Array },
): MixedTerm {
  const coefficient = estimateOf(setting, one.along);
  const used = covarianceUsed(setting);
  const plain = { ...collinear(one.name), coefficient };
  if (used === null) return { ...plain, reason: "too-few-rows" };
  const standardError = Math.sqrt(quadraticProduct([one.along], used)[0]!);
  const t = coefficient / standardError;
  const isNormal = setting.inference === "normal";
  const df = isNormal ? null : (testOf(setting, [one.along])?.denominatorDf ?? null);
  if (!isNormal && df === null) return { ...plain, standardError, t, reason: "too-few-rows" };
  const half = standardError * (df === null ? normalCritical(setting.level) : tCritical(setting.level, df));
  return {
    name: one.name,
    coefficient,
    standardError,
    lower: coefficient - half,
    upper: coefficient + half,
    t,
    df,
    p: df === null ? normalTwoSided(t) : tTwoSided(t, df),
    reason: null,
  };
}

/** Estimate, error, interval and test of each fixed effect. */
export const termsOf = (setting: FixedSetting, functionals: readonly (Float64Array | null)[]): MixedTerm[] =>
  setting.names.map((name, k) => {
    const along = functionals[k];
    return along == null ? collinear(name) : termOf(setting, { name, along });
  });

/** A test of several effects at once; collinear ones add nothing. */
export function jointTest(
  setting: FixedSetting,
  of: { readonly terms: readonly string[]; readonly functionals: readonly (Float64Array | null)[] },
): JointTest {
  const { terms } = of;
  const along = terms.flatMap((term) => of.functionals[setting.names.indexOf(term)] ?? []);
  const none = (reason: Reason): JointTest => ({
    terms,
    f: null,
    numeratorDf: along.length,
    denominatorDf: null,
    p: null,
    reason,
  });
  if (along.length === 0) return none(nothingTested(terms));
  const numerator = along.length;
  if (setting.inference === "normal") {
    const factor = factorSymmetric(quadraticProduct(along, setting.information.covariance), {
      size: numerator,
      tolerance: 1e-14,
    });
    const statistic = quadraticForm(
      factor,
      along.map((one) => estimateOf(setting, one)),
    );
    const p = chiSquareUpperTail(statistic, numerator);
    return { terms, f: statistic / numerator, numeratorDf: numerator, denominatorDf: null, p, reason: null };
  }
  const found = testOf(setting, along);
  if (found === null) return none("too-few-rows");
  const denominator = found.denominatorDf;
  return {
    terms,
    f: found.f,
    numeratorDf: numerator,
    denominatorDf: denominator,
    p: fUpperTail(found.f, { numerator, denominator }),
    reason: null,
  };
}

/** Only the reason. */
export const termsWithout = (names: readonly string[], reason: Reason): MixedTerm[] =>
  names.map((name) => ({ ...collinear(name), reason }));
