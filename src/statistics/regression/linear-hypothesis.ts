import { factorSymmetric, quadraticForm } from "../linear/symmetric.js";
import { ArgumentError } from "../shared/arguments.js";
import { nothingTested } from "../shared/covariates.js";
import { fUpperTail } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { checkResult } from "../shared/options.js";
import type { LinearFit } from "./linear-types.js";

/** F on its two degrees of freedom. */
export interface FTest {
  readonly f: number | null;
  readonly numeratorDf: number;
  readonly denominatorDf: number;
  readonly p: number | null;
  readonly reason: Reason | null;
}

/** Independent coefficients are told from dependent ones by what is left of a pivot. */
const dependent = 1e-12;

/**
 * F test that several coefficients of a linear regression are all 0: b' V^-1 b / q on q and the fit's degrees of freedom.
 *
 * With the classical variance it equals the test of the two nested models by their residual squares; with the robust ones it is their Wald test.
 * Collinear terms add nothing to q; with as many terms as clusters, or more, there is no test (`too-few-rows`).
 *
 * @param terms names among those of the fit
 * @throws ArgumentError for a name that the fit does not have, with its index
 * @source Seber & Lee 2003, Linear Regression Analysis, section 4.3
 * @example
 * // all covariates of a fit: the F of the whole regression
 * const fit = linearRegression({ response: [1, 2, 4], covariates: { names: ["x"], columns: [[1, 2, 3]] } });
 * testTogether(fit, ["x"]).f // => 27
 */
export function testTogether(fit: LinearFit, terms: readonly string[]): FTest {
  checkResult(
    { fit },
    { expected: "a result of linearRegression", has: ["names", "coefficients", "covariance"] },
  );
  const places = terms.map((term, i) => {
    const place = fit.names.indexOf(term);
    if (place < 0)
      throw new ArgumentError({
        argument: "terms",
        index: i,
        expected: `one of ${fit.names.join(", ")}`,
        found: `"${term}"`,
      });
    return place;
  });
  const over = places.filter((place) => fit.coefficients[place] !== null);
  const size = over.length;
  const none = (reason: Reason): FTest => ({
    f: null,
    numeratorDf: size,
    denominatorDf: fit.df,
    p: null,
    reason,
  });
  if (fit.reason !== null) return none(fit.reason);
  if (size === 0) return none(nothingTested(terms));
  const matrix = over.flatMap((i) => over.map((j) => fit.covariance[i]![j]!));
  const factor = factorSymmetric(matrix, { size, tolerance: dependent });
  const numerator = factor.kept.length;
  if (numerator === 0) return none("no-variance");
  if (numerator < size) return none("too-few-rows");
  const values = over.map((place) => fit.coefficients[place]!);
  const f = quadraticForm(factor, values) / numerator;
  const p = fUpperTail(f, { numerator, denominator: fit.df });
  return { f, numeratorDf: numerator, denominatorDf: fit.df, p, reason: null };
}
