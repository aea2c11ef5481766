import { ratioOfCoefficient } from "../../hazards/fit/describe-fit.js";
import { productOf } from "../../hazards/fit/sandwich.js";
import type { HazardRatio } from "../../hazards/layout/hazard-fit.js";
import { factorOver } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import type { Reason } from "../../shared/figure.js";
import { withoutRounding } from "../../shared/sandwich-rounding.js";
import { type Ascent, lastStepBelow, type PooledSums, runningAway } from "./ascent.js";

type Matrix = readonly (readonly number[])[];

/** What the last round gives: sums where the maximum is, with the squared scores of the people. */
export interface LastSums extends PooledSums {
  readonly squares: Matrix;
}

/** One parameter of a fit. */
export interface RoundParameter {
  readonly name: string;
  readonly coefficient: number | null;
  /** From the information, and from the squared scores of the people. */
  readonly standardError: number | null;
  readonly robustStandardError: number | null;
  /** exp(coefficient): a ratio of hazards, or of times. Interval and p by the robust error. */
  readonly ratio: Omit<HazardRatio, "name">;
}

export interface RoundFit {
  readonly parameters: readonly RoundParameter[];
  readonly logLikelihood: number;
  /** Squared length of the step that would come next, in standard errors. */
  readonly left: number;
  readonly converged: boolean;
  readonly level: number;
}

/** Values of the parameters as they are read, and their derivatives by those of the ascent, flat. */
export interface ReadAs {
  readonly values: readonly number[];
  readonly derivatives: Float64Array;
}

/** The parameters as they are: a hazards regression. */
export function asTheyAre(point: readonly number[]): ReadAs {
  const size = point.length;
  const derivatives = new Float64Array(size * size);
  for (let j = 0; j < size; j++) derivatives[j * size + j] = 1;
  return { values: point, derivatives };
}

/** Of b / scale and, last, 1 / scale: b and log scale. */
export function asTimes(point: readonly number[]): ReadAs {
  const size = point.length;
  const w = point[size - 1]!;
  const values = point.map((value, j) => (j === size - 1 ? -Math.log(w) : value / w));
  const derivatives = new Float64Array(size * size);
  for (let j = 0; j < size - 1; j++) {
    derivatives[j * size + j] = 1 / w;
    derivatives[j * size + size - 1] = -values[j]! / w;
  }
  derivatives[size * size - 1] = -1 / w;
  return { values, derivatives };
}

function transposed(matrix: Float64Array, size: number): Float64Array {
  const turned = new Float64Array(size * size);
  for (let j = 0; j < size; j++) for (let k = 0; k < size; k++) turned[k * size + j] = matrix[j * size + k]!;
  return turned;
}

/**
 * The fit at the last point: coefficients with standard errors from the information, and from the squared scores of the people. They are those
 * of one regression on all rows with the same strata or intercepts.
 *
 * @source robust variance: Lin & Wei 1989, J Am Stat Assoc 84:1074
 */
export function fitOfRounds(
  sums: LastSums,
  asked: {
    readonly names: readonly string[];
    readonly ascent: Pick<Ascent, "free" | "first">;
    readonly readAs: ReadAs;
    readonly level: number;
  },
): RoundFit {
  const { names, ascent, readAs, level } = asked;
  const size = names.length;
  const gone = runningAway(ascent, sums.information);
  const finite = ascent.free.filter((j) => !gone.includes(j));
  const factor = factorOver(Float64Array.from(sums.information.flat()), finite);
  const inverse = invertFactored(factor);
  const step = sums.score.map((_, j) => {
    let moved = 0;
    for (const k of finite) moved += inverse[j * size + k]! * sums.score[k]!;
    return moved;
  });
  const left = step.reduce((sum, value, j) => sum + value * sums.score[j]!, 0);
  const meat = Float64Array.from(sums.squares.flat());
  const sandwich = withoutRounding(productOf(productOf(inverse, meat, size), inverse, size), inverse);
  const carried = (matrix: Float64Array): Float64Array =>
    productOf(productOf(readAs.derivatives, matrix, size), transposed(readAs.derivatives, size), size);
  const [model, robust] = [carried(inverse), carried(sandwich)];
  const converged = left < lastStepBelow && factor.kept.length === finite.length;
  return {
    parameters: names.map((name, j): RoundParameter => {
      if (!finite.includes(j)) return missing(name, gone.includes(j) ? "monotone-likelihood" : "collinear");
      const coefficient = readAs.values[j]!;
      const robustStandardError = Math.sqrt(robust[j * size + j]!);
      const { name: _, ...ratio } = ratioOfCoefficient(name, {
        coefficient,
        error: robustStandardError,
        level,
      });
      return {
        name,
        coefficient,
        standardError: Math.sqrt(model[j * size + j]!),
        robustStandardError,
        ratio: converged ? ratio : { ...ratio, reason: ratio.reason ?? "not-converged" },
      };
    }),
    logLikelihood: sums.logLikelihood,
    left,
    converged,
    level,
  };
}

const missing = (name: string, reason: Reason): RoundParameter => ({
  name,
  coefficient: null,
  standardError: null,
  robustStandardError: null,
  ratio: { estimate: null, lower: null, upper: null, z: null, p: null, reason, limit: null },
});
