import { byStudent, type ClusteredHazardRatio } from "../../hazards/clusters/by-student.js";
import { ratioOfCoefficient } from "../../hazards/fit/describe-fit.js";
import { productOf } from "../../hazards/fit/sandwich.js";
import { factorOver } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import type { Reason } from "../../shared/figure.js";
import { withoutRounding } from "../../shared/sandwich-rounding.js";
import { type Ascent, lastStepBelow, type PooledSums, runningAway } from "./ascent.js";

type Matrix = readonly (readonly number[])[];

/** What the last round gives: sums where the maximum is, with the squared scores of the people. */
export interface LastSums extends PooledSums {
  readonly squares: Matrix;
  /** Different people behind the sums. */
  readonly persons: number;
  /** Covariance that holds with few people, by the free parameters alone: deletionsAt summed over sites; null where it was not asked for. */
  readonly deletions: Matrix | null;
}

/**
 * How the large-sample variance over people is corrected for few of them, with the degrees of freedom of Student's t. G people, k parameters.
 *
 * - `deletion`: each person's influence multiplied by what their deletion changes; G - 1
 * - `people`: times G / (G - 1); G - 1
 * - `parameters`: times G / (G - k); G - k
 */
export type PeopleCorrection = "deletion" | "people" | "parameters";

/** One parameter of a fit. */
export interface RoundParameter {
  readonly name: string;
  readonly coefficient: number | null;
  /** From the information, and from the squared scores of the people: both of large samples. */
  readonly standardError: number | null;
  readonly robustStandardError: number | null;
  /** Over people, corrected for few of them. */
  readonly correctedStandardError: number | null;
  /** exp(coefficient): a ratio of hazards, or of times. Interval and p by the corrected error. */
  readonly ratio: Omit<ClusteredHazardRatio, "name" | "standardError">;
}

export interface RoundFit {
  readonly parameters: readonly RoundParameter[];
  readonly logLikelihood: number;
  /** Squared length of the step that would come next, in standard errors. */
  readonly left: number;
  readonly converged: boolean;
  readonly level: number;
  readonly correction: PeopleCorrection;
  readonly degreesOfFreedom: number;
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
 * @source robust variance: Lin & Wei 1989, J Am Stat Assoc 84:1074; factor: Hinkley 1977, Technometrics 19:285
 */
export function fitOfRounds(
  sums: LastSums,
  asked: {
    readonly names: readonly string[];
    readonly ascent: Pick<Ascent, "free" | "first">;
    readonly readAs: ReadAs;
    readonly level: number;
    /** Where there are no deletions. */
    readonly correction: Exclude<PeopleCorrection, "deletion">;
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
  const few = forFewPeople({ sums, robust }, { free: ascent.free, correction: asked.correction, size });
  const converged = left < lastStepBelow && factor.kept.length === finite.length;
  return {
    parameters: names.map((name, j): RoundParameter => {
      if (!finite.includes(j)) return missing(name, gone.includes(j) ? "monotone-likelihood" : "collinear");
      const coefficient = readAs.values[j]!;
      const error = Math.sqrt(model[j * size + j]!);
      const variance = few.covariance[j * size + j]!;
      const {
        name: _,
        standardError: correctedStandardError,
        ...ratio
      } = byStudent(ratioOfCoefficient(name, { coefficient, error, level }), {
        coefficient,
        variance,
        df: few.degreesOfFreedom,
        level,
      });
      return {
        name,
        coefficient,
        standardError: error,
        robustStandardError: Math.sqrt(robust[j * size + j]!),
        correctedStandardError,
        ratio: converged ? ratio : { ...ratio, reason: ratio.reason ?? "not-converged" },
      };
    }),
    logLikelihood: sums.logLikelihood,
    left,
    converged,
    level,
    correction: few.correction,
    degreesOfFreedom: few.degreesOfFreedom,
  };
}

interface FewPeople {
  readonly covariance: Float64Array;
  readonly correction: PeopleCorrection;
  readonly degreesOfFreedom: number;
}

/** The covariance over people, corrected for few of them: by their deletions where these are all there, else by a factor. */
function forFewPeople(
  { sums, robust }: { readonly sums: LastSums; readonly robust: Float64Array },
  asked: {
    readonly free: readonly number[];
    readonly correction: Exclude<PeopleCorrection, "deletion">;
    readonly size: number;
  },
): FewPeople {
  const { persons, deletions } = sums;
  const { free, correction, size } = asked;
  if (deletions?.every((row, j) => Number.isFinite(row[j]) && row[j]! > 0)) {
    const covariance = new Float64Array(size * size);
    free.forEach((j, at) => {
      free.forEach((k, across) => {
        covariance[j * size + k] = deletions[at]![across]!;
      });
    });
    return { covariance, correction: "deletion", degreesOfFreedom: Math.max(0, persons - 1) };
  }
  const degreesOfFreedom = Math.max(0, persons - (correction === "people" ? 1 : free.length));
  return {
    covariance: robust.map((value) => (value * persons) / degreesOfFreedom),
    correction,
    degreesOfFreedom,
  };
}

const missing = (name: string, reason: Reason): RoundParameter => ({
  name,
  coefficient: null,
  standardError: null,
  robustStandardError: null,
  correctedStandardError: null,
  ratio: { estimate: null, lower: null, upper: null, t: null, p: null, reason, limit: null },
});
