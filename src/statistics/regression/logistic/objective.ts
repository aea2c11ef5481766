import { quadraticProduct } from "./products.js";

/** A log-likelihood at a point, with its first derivatives and the information (or what stands for it), flat by rows. */
export interface Evaluation {
  readonly value: number;
  readonly gradient: Float64Array;
  readonly information: Float64Array;
  /** What Newton's steps divide by, where that is not the information. */
  readonly curvature?: Float64Array;
  /** Largest absolute linear predictor of a row that counts: far from 0 where the fit runs away. */
  readonly farthest: number;
}

/** What is maximised. */
export interface Objective {
  readonly size: number;
  readonly evaluate: (at: Float64Array) => Evaluation;
}

/** The objective along the span of some vectors, each as long as `objective.size`; their coordinates are the new variables. */
export function withinSpan(objective: Objective, span: readonly Float64Array[]): Objective {
  return {
    size: span.length,
    evaluate: (at) => {
      const { value, gradient, information, farthest } = objective.evaluate(
        combined(span, { at, size: objective.size }),
      );
      return {
        value,
        gradient: coordinatesAlong(span, gradient),
        information: quadraticProduct(span, information),
        farthest,
      };
    },
  };
}

/** Sum of vectors, each of one size, times coordinates. */
export function combined(
  span: readonly Float64Array[],
  of: { readonly at: ArrayLike<number>; readonly size: number },
): Float64Array {
  const { at, size } = of;
  const result = new Float64Array(size);
  span.forEach((vector, k) => {
    for (let i = 0; i < size; i++) result[i]! += at[k]! * vector[i]!;
  });
  return result;
}

/** Inner product with each vector. */
export const coordinatesAlong = (span: readonly Float64Array[], vector: ArrayLike<number>): Float64Array =>
  Float64Array.from(span, (one) => one.reduce((sum, x, i) => sum + x * vector[i]!, 0));
