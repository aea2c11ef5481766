import {
  commonEffect,
  heterogeneity,
  metaRegression,
  randomEffects,
  smallStudyAsymmetry,
} from "../../../src/statistics/pooling/index.js";
import { siteModel } from "../../../src/statistics/pooling/two-stage/site-model.js";
import { spreadOf } from "../../../src/statistics/pooling/two-stage/spread.js";
import type { SetOfSites } from "./draw-sites.js";

const methods = {
  DL: "dersimonian-laird",
  REML: "restricted-likelihood",
  ML: "likelihood",
  PM: "paule-mandel",
} as const;

/** Our figures of a set under the names that the reference script uses. */
export function oursOf({ y, v, x }: SetOfSites): ReadonlyMap<string, number | null> {
  const figures = new Map<string, number | null>();
  const emit = (name: string, values: readonly (number | null)[]): void => {
    values.forEach((value, i) => void figures.set(`${name}/${i}`, value));
  };
  const columns = { estimates: y, variances: v };
  for (const [name, spread] of Object.entries(methods)) {
    const normal = randomEffects(columns, { spread, interval: "normal" });
    const { tauSquared, iSquared } = normal.spread;
    emit(name, [
      tauSquared,
      normal.estimate,
      normal.standardError,
      normal.lower,
      normal.upper,
      normal.p,
      100 * iSquared!,
    ]);
    const { logLikelihood } = spreadOf(
      siteModel({ y: Float64Array.from(y), v: Float64Array.from(v) }),
      spread,
    ).fit;
    emit(`${name}:logLik`, [name === "REML" ? logLikelihood.restricted : logLikelihood.full]);
    const plain = randomEffects(columns, { spread, interval: "hartung-knapp", predictionDfLess: 1 });
    // without a width we give no interval, the reference one of a single point
    const { standardError, lower, upper, p, prediction } = plain;
    if (standardError! > 1e-12 && y.length > 2)
      emit(`${name}:knha`, [standardError, lower, upper, p, prediction.lower, prediction.upper]);
  }
  const common = commonEffect(columns);
  const { q, p, tauSquaredLimits } = heterogeneity(columns);
  emit("common", [common.estimate, common.standardError, common.lower, common.upper, q, p]);
  // an empty interval is 0 to 0 in the reference
  if (tauSquaredLimits.reason === null) emit("limits", [tauSquaredLimits.lower, tauSquaredLimits.upper]);
  if (y.length > 3 && new Set(y).size > 1) {
    const line = metaRegression(
      { ...columns, covariates: { names: ["x"], columns: [x] } },
      { interval: "hartung-knapp" },
    );
    emit("line", [
      line.tauSquared,
      ...line.coefficients,
      ...line.standardErrors,
      line.residual.statistic,
      line.together.statistic,
    ]);
  }
  const asymmetry = smallStudyAsymmetry(columns);
  if (asymmetry.reason === null) emit("asymmetry", [asymmetry.t, asymmetry.p]);
  return figures;
}
