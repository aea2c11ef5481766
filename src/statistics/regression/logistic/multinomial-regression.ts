import { factorSymmetric, invertFactored } from "../../linear/symmetric.js";
import { checkColumn } from "../../shared/arguments.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, readOptions } from "../../shared/options.js";
import { type Covariances, estimatesOf, termsOf } from "./estimates.js";
import { designRows } from "./fitted-rows.js";
import { checkRegressionRows, type Layout, refuseProfileOfClusters } from "./layout.js";
import { fitToLimit, type LimitFit } from "./limit-fit.js";
import {
  type MultinomialRows,
  marginsOf,
  multinomialLogLikelihood,
  ruledOut,
} from "./multinomial-likelihood.js";
import { prepareCategories } from "./multinomial-prepare.js";
import { fittedProbabilities, multinomialScores } from "./multinomial-rows.js";
import type { MultinomialColumns, MultinomialFit, MultinomialOptions } from "./multinomial-types.js";
import { multinomialColumnsNames, multinomialOptions } from "./multinomial-types.js";
import { overallOf } from "./overall.js";
import { noTest } from "./overall-tests.js";
import { clusteredCovariance } from "./robust-covariance.js";
import { separationOf } from "./separation.js";

function covariancesOf(
  fit: LimitFit,
  of: { readonly rows: MultinomialRows; readonly layout: Layout; readonly clusters?: ArrayLike<number> },
): Covariances {
  const { information } = fit.climb.end;
  const size = fit.climb.point.length;
  const model = invertFactored(factorSymmetric(information, { size, tolerance: 1e-15 }));
  const { clusters } = of;
  if (!clusters) return { model };
  const own = Float64Array.from(of.layout.rows, (row) => clusters[row]!);
  const values = multinomialScores(fit, of.rows);
  return { model, robust: clusteredCovariance({ values, size, clusters: own }, information) };
}

/**
 * Multinomial logistic regression by maximum likelihood, with intercepts: log(P(category) / P(reference)) = b0 + sum of b x for each category.
 *
 * Everything as in logisticRegression: Newton's method on an orthonormal basis, inverse information or sandwich, separation decided by geometry
 * and followed to its limit (a row may then be ruled out of a category, with probability 0). With two categories it is logisticRegression.
 *
 * Degenerate data: no rows, or one category only, give no comparisons and that status; collinear covariates have no coefficient in any
 * category.
 *
 * @throws ArgumentError naming the column and index of a value at fault, the option, a reference that is no category, or profile intervals
 *   asked for with clusters
 * @source Theil 1969, Int Econ Rev 10:251; separation: Albert & Anderson 1984, Biometrika 71:1
 * @example
 * multinomialRegression({ categories: [0, 0, 1, 2, 0, 1, 1, 2], covariates: { names: [], columns: [] } }).fitted.map((p) => p[0])
 *   // => [3/8, 3/8, 2/8]
 */
export function multinomialRegression(
  columns: MultinomialColumns,
  options: MultinomialOptions = {},
): MultinomialFit {
  checkColumnNames(multinomialColumnsNames, { columns });
  const { reference, interval, level, maximumIterations, tolerance } = readOptions(
    multinomialOptions,
    options,
  );
  const response = { name: "categories", values: columns.categories };
  checkColumn(response, "code");
  checkRegressionRows(columns, response);
  const z = normalCritical(level);
  refuseProfileOfClusters(columns, interval);

  const prepared = prepareCategories(columns, { reference });
  const { layout, categories, counts, rows, asked } = prepared;
  const { basis } = layout;
  const names = ["intercept", ...columns.covariates.names];
  const total = columns.categories.length;
  if (categories.length < 2)
    return withoutComparison({ names, categories, level, n: basis.rows, rank: basis.size }, total);

  const whole = multinomialLogLikelihood(rows);
  const iterations = { maximumIterations, tolerance };
  const fit = fitToLimit(
    {
      objective: whole,
      margins: () => marginsOf(rows),
      without: (strict) => multinomialLogLikelihood(ruledOut(rows, strict)),
    },
    iterations,
  );
  const { clusters } = columns;
  const covariances = covariancesOf(fit, { rows, layout, ...(clusters && { clusters }) });
  const estimates = estimatesOf(fit, { asked, covariances });
  const terms = termsOf(estimates, { interval, setting: { fit, whole, z, ...iterations } });
  const slopes = Array.from({ length: whole.size }, (_, k) => k).filter((k) => k % basis.size > 0);
  const collinear = basis.size < names.length;
  const { empty, ...overall } = overallOf(fit, { whole, slopes, covariances, iterations, collinear });
  const logLikelihood = fit.climb.end.value;
  return {
    names,
    categories,
    reference: categories[0]!,
    comparisons: categories.slice(1).map((category, block) => ({
      category,
      n: counts[block + 1]!,
      terms: terms
        .slice(block * names.length, (block + 1) * names.length)
        .map((term, k) => ({ ...term, name: names[k]! })),
    })),
    covariance: estimates.covariance,
    robustCovariance: estimates.robustCovariance,
    separation: fit.recession && separationOf(fit.recession, asked),
    ...overall,
    logLikelihood,
    logLikelihoodNull: empty.end.value,
    deviance: -2 * logLikelihood,
    aic: fit.recession ? null : -2 * logLikelihood + 2 * whole.size,
    fitted: fittedProbabilities(fit, {
      rows,
      x: designRows({ layout }, { covariates: columns.covariates, total }),
      total,
    }),
    level,
    n: basis.rows,
    rank: basis.size,
  };
}

function withoutComparison(
  of: Pick<MultinomialFit, "names" | "categories" | "level" | "n" | "rank">,
  total: number,
): MultinomialFit {
  const reason: Reason = of.n === 0 ? "no-rows" : "one-group";
  const logLikelihood = of.n === 0 ? null : 0;
  return {
    ...of,
    reference: of.categories[0] ?? null,
    comparisons: [],
    covariance: [],
    robustCovariance: null,
    separation: null,
    likelihoodRatio: noTest(reason),
    score: noTest(reason),
    wald: noTest(reason),
    logLikelihood,
    logLikelihoodNull: logLikelihood,
    deviance: logLikelihood,
    aic: null,
    fitted: of.n === 0 ? [] : [new Array<number>(total).fill(1)],
    iterations: 0,
    converged: false,
    finalGradient: null,
    status: of.n === 0 ? "no-rows" : "one-outcome",
  };
}
