import { ArgumentError, checkColumn, checkNumber } from "../../arguments.js";
import { normalCritical } from "../../distributions.js";
import type { Reason } from "../../figure.js";
import { factorSymmetric, invertFactored } from "../../linear/symmetric.js";
import { type Covariances, estimatesOf, termsOf } from "./estimates.js";
import { designRows } from "./fitted-rows.js";
import { checkRegressionRows, type Layout, layOut, refuseProfileOfClusters } from "./layout.js";
import { fitToLimit, type LimitFit } from "./limit-fit.js";
import { statusOf } from "./logistic-regression.js";
import {
  type MultinomialRows,
  marginsOf,
  multinomialLogLikelihood,
  ruledOut,
} from "./multinomial-likelihood.js";
import { fittedProbabilities, multinomialScores } from "./multinomial-rows.js";
import type { MultinomialColumns, MultinomialFit, MultinomialOptions } from "./multinomial-types.js";
import { climb } from "./newton.js";
import { chiSquare, noTest, scoreTest, waldTest } from "./overall-tests.js";
import { clusteredCovariance } from "./robust-covariance.js";
import { separationOf, spreadOf } from "./separation.js";

function orderOf(present: Int32Array | readonly number[], reference: number | undefined): number[] {
  const codes = [...new Set(present)].sort((a, b) => a - b);
  if (reference === undefined || codes.length === 0) return codes;
  if (!codes.includes(reference))
    throw new ArgumentError({
      argument: "reference",
      index: null,
      expected: `one of the categories (${codes.join(", ")})`,
      found: reference,
    });
  return [reference, ...codes.filter((code) => code !== reference)];
}

function covariancesOf(
  fit: LimitFit,
  of: { readonly rows: MultinomialRows; readonly layout: Layout; readonly clusters?: ArrayLike<number> },
): Covariances {
  const { information } = fit.climb.end;
  const size = fit.climb.point.length;
  const model = invertFactored(factorSymmetric(information, { size, tolerance: 1e-15 }));
  const { clusters } = of;
  if (!clusters) return { model };
  const own = Float64Array.from(of.layout.rows, (row) => clusters[row] as number);
  const values = multinomialScores(fit, of.rows);
  return { model, robust: clusteredCovariance({ values, size, clusters: own }, information) };
}

/** A function on the columns of the basis, as one on the variables of a category. */
function inBlock(
  functional: Float64Array | null,
  at: { block: number; blocks: number },
): Float64Array | null {
  if (functional === null) return null;
  const result = new Float64Array(functional.length * at.blocks);
  result.set(functional, at.block * functional.length);
  return result;
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
  const { interval = "wald", level = 0.95, maximumIterations = 200, tolerance = 1e-10 } = options;
  const response = { name: "categories", values: columns.categories };
  checkColumn(response, "code");
  checkRegressionRows(columns, response);
  checkNumber({ name: "maximumIterations", value: maximumIterations }, "count");
  checkNumber({ name: "tolerance", value: tolerance }, "positive");
  const z = normalCritical(level);
  refuseProfileOfClusters(columns, interval);

  const layout = layOut(columns, columns.categories.length);
  const { basis } = layout;
  const present = Array.from(layout.rows, (row) => columns.categories[row] as number);
  const categories = orderOf(present, options.reference);
  const names = ["intercept", ...columns.covariates.names];
  if (categories.length < 2)
    return withoutComparison({ names, categories, level, n: basis.rows, rank: basis.size });

  const place = new Map(categories.map((code, k) => [code, k]));
  const rows: MultinomialRows = {
    n: basis.rows,
    width: basis.size,
    x: basis.values,
    y: Int32Array.from(present, (code) => place.get(code) as number),
    categories: categories.length,
    weights: layout.weights,
    allowed: null,
  };
  const objective = multinomialLogLikelihood(rows);
  const iterations = { maximumIterations, tolerance };
  const fit = fitToLimit(
    {
      objective,
      margins: () => marginsOf(rows),
      without: (strict) => multinomialLogLikelihood(ruledOut(rows, strict)),
    },
    iterations,
  );
  const { recession } = fit;
  const others = categories.slice(1);
  const spreads = [1, ...columns.covariates.columns.map(spreadOf)];
  const asked = {
    names: others.flatMap((code) => names.map((name) => `${code}: ${name}`)),
    functionals: others.flatMap((_, block) =>
      layout.functionals.map((functional) => inBlock(functional, { block, blocks: others.length })),
    ),
    spreads: others.flatMap(() => spreads),
  };
  const { clusters } = columns;
  const covariances = covariancesOf(fit, { rows, layout, ...(clusters && { clusters }) });
  const estimates = estimatesOf(fit, { asked, covariances });
  const terms = termsOf(estimates, { interval, setting: { fit, whole: objective, z, ...iterations } });

  const slopes = Array.from({ length: objective.size }, (_, k) => k).filter((k) => k % basis.size > 0);
  const along = slopes.map((k) => {
    const unit = new Float64Array(objective.size);
    unit[k] = 1;
    return unit;
  });
  const empty = climb(objective, {
    ...iterations,
    start: new Float64Array(objective.size),
    held: { along, values: slopes.map(() => 0) },
  });
  const df = slopes.length;
  const logLikelihood = fit.climb.end.value;
  const converged = fit.climb.outcome === "converged";
  return {
    names,
    categories,
    reference: categories[0] as number,
    comparisons: others.map((category, block) => ({
      category,
      n: present.filter((code) => code === category).length,
      terms: terms
        .slice(block * names.length, (block + 1) * names.length)
        .map((term, k) => ({ ...term, name: names[k] as string })),
    })),
    covariance: estimates.covariance,
    robustCovariance: estimates.robustCovariance,
    separation: recession && separationOf(recession, asked),
    likelihoodRatio: chiSquare(Math.max(0, 2 * (logLikelihood - empty.end.value)), df),
    score: scoreTest(empty.end, df),
    wald: recession
      ? noTest("monotone-likelihood", df)
      : covariances.robust === null
        ? noTest("too-few-rows", df)
        : waldTest({ point: fit.climb.point, covariance: covariances.robust ?? covariances.model }, slopes),
    logLikelihood,
    logLikelihoodNull: empty.end.value,
    deviance: -2 * logLikelihood,
    aic: recession ? null : -2 * logLikelihood + 2 * objective.size,
    fitted: fittedProbabilities(fit, {
      rows,
      x: designRows({ layout }, { covariates: columns.covariates, total: columns.categories.length }),
      total: columns.categories.length,
    }),
    level,
    n: basis.rows,
    rank: basis.size,
    iterations: fit.climb.iterations,
    converged,
    finalGradient: fit.climb.end.gradient.reduce((most, value) => Math.max(most, Math.abs(value)), 0),
    status: statusOf({
      separated: recession !== null,
      converged,
      collinear: basis.size < names.length,
    }),
  };
}

function withoutComparison(
  of: Pick<MultinomialFit, "names" | "categories" | "level" | "n" | "rank">,
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
    fitted: of.n === 0 ? [] : [new Array<number>(of.n).fill(1)],
    iterations: 0,
    converged: false,
    finalGradient: null,
    status: of.n === 0 ? "no-rows" : "one-outcome",
  };
}
