import type { HazardFit, HazardOptions } from "../layout/hazard-fit.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import { hazardModel } from "./model.js";

/**
 * Proportional-hazards regression by maximum partial likelihood: strata, case weights, delayed entry, start-stop rows, robust variance.
 *
 * Ties: Efron (default), Breslow or exact (discrete). With weights Efron's denominators carry the mean weight of the tied events. Exact
 * ties know neither weights nor clusters, and stop at ties too large to go through. Standard errors from the inverse information; with
 * clusters also from the sandwich of score residuals summed within clusters, without small-sample factor, and then intervals and p-values
 * are the robust ones.
 *
 * Degenerate data: no rows or no events give nulls and that status. A covariate that is constant, or a combination of those listed
 * before it, within every risk set has no coefficient (`collinear`), the others do. Where the likelihood rises for ever, that covariate's
 * coefficient is null (`monotone-likelihood`, with the limit of its ratio); the likelihood-ratio and score tests and the other coefficients are
 * those of the limit, and there is no Wald test. Iterations that run out give their last values and `not-converged`. With no more clusters
 * than coefficients there are no robust tests of all of them together (`too-few-rows`).
 *
 * @param columns see TimeToEvent; covariates as finite numbers, categories already as 0/1 columns
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Cox 1972, J R Stat Soc B 34:187; ties: Efron 1977, J Am Stat Assoc 72:557; Breslow 1974, Biometrics 30:89; Gail, Lubin & Rubinstein
 *   1981, Biometrika 68:703; robust variance and score test: Lin & Wei 1989, J Am Stat Assoc 84:1074; start-stop rows: Andersen & Gill 1982,
 *   Ann Stat 10:1100
 * @example
 * // six rows, three of them with x = 1
 * hazardsRegression({
 *   times: [1, 1, 6, 6, 8, 9], events: [1, 0, 1, 1, 0, 1],
 *   covariates: { names: ["x"], columns: [[1, 1, 1, 0, 0, 0]] },
 * }).hazardRatios[0].estimate // => 5.348721
 */
export const hazardsRegression = (columns: HazardColumns, options: HazardOptions = {}): HazardFit =>
  hazardModel(columns, options).fit;
