import type { Profiled } from "./variance-intervals.js";

const infinite = Number.POSITIVE_INFINITY;

/** What the figures of a random intercept are held by: ratio of variances and residual variance. */
export interface InterceptFigures {
  readonly residualDeviation: Profiled;
  readonly interceptDeviation: Profiled;
  readonly intraclassCorrelation: Profiled;
}

export function figuresOfIntercept(at: {
  readonly ratio: number;
  readonly variance: number;
}): InterceptFigures {
  const { ratio, variance } = at;
  const logVariance = Float64Array.of(Math.log(variance));
  return {
    residualDeviation: {
      estimate: Math.sqrt(variance),
      free: Float64Array.of(Math.sqrt(ratio)),
      map: (deviation, free) => ({
        ratio: Float64Array.of(free[0]! ** 2),
        logVariance: 2 * Math.log(deviation),
      }),
      lowest: 0,
      highest: infinite,
      unit: 0.1 * Math.sqrt(variance),
    },
    interceptDeviation: {
      estimate: Math.sqrt(ratio * variance),
      free: logVariance,
      map: (deviation, free) => ({
        ratio: Float64Array.of(deviation ** 2 / Math.exp(free[0]!)),
        logVariance: free[0]!,
      }),
      lowest: 0,
      highest: infinite,
      unit: 0.1 * Math.sqrt(variance),
    },
    intraclassCorrelation: {
      estimate: ratio / (1 + ratio),
      free: logVariance,
      map: (share, free) => ({ ratio: Float64Array.of(share / (1 - share)), logVariance: free[0]! }),
      lowest: 0,
      highest: 1,
      unit: 0.1,
    },
  };
}

/** Deviations and correlation of intercept and slope; the slope in units of the scaled covariate. */
export interface SlopeFigures {
  readonly residualDeviation: Profiled;
  readonly interceptDeviation: Profiled;
  readonly slopeDeviation: Profiled;
  readonly correlation: Profiled | null;
}

const matrix = (first: number, off: number, last: number): Float64Array =>
  Float64Array.of(first, off, off, last);

/**
 * Each figure held in a root of the matrix whose first row belongs to it, so that nothing of it is left to a constraint.
 *
 * @param at variances of intercept and slope and their covariance, over the residual variance
 */
export function figuresOfSlope(at: {
  readonly intercept: number;
  readonly slope: number;
  readonly covariance: number;
  readonly variance: number;
}): SlopeFigures {
  const { intercept, slope, covariance, variance } = at;
  const logVariance = Math.log(variance);
  const [first, last] = [Math.sqrt(intercept), Math.sqrt(slope)];
  const rest = (own: number, other: number): [number, number] => {
    const across = own > 0 ? covariance / own : 0;
    return [across, Math.sqrt(Math.max(0, other - across * across))];
  };
  const onFirst = rest(first, slope);
  const onLast = rest(last, intercept);
  return {
    residualDeviation: {
      estimate: Math.sqrt(variance),
      free: Float64Array.of(first, ...onFirst),
      map: (deviation, free) => ({
        ratio: matrix(free[0]! ** 2, free[0]! * free[1]!, free[1]! ** 2 + free[2]! ** 2),
        logVariance: 2 * Math.log(deviation),
      }),
      lowest: 0,
      highest: infinite,
      unit: 0.1 * Math.sqrt(variance),
    },
    interceptDeviation: {
      estimate: first * Math.sqrt(variance),
      free: Float64Array.of(logVariance, ...onFirst),
      map: (deviation, free) => {
        const own = deviation / Math.exp(free[0]! / 2);
        return {
          ratio: matrix(own ** 2, own * free[1]!, free[1]! ** 2 + free[2]! ** 2),
          logVariance: free[0]!,
        };
      },
      lowest: 0,
      highest: infinite,
      unit: 0.1 * Math.sqrt(variance),
    },
    slopeDeviation: {
      estimate: last * Math.sqrt(variance),
      free: Float64Array.of(logVariance, ...onLast),
      map: (deviation, free) => {
        const own = deviation / Math.exp(free[0]! / 2);
        return {
          ratio: matrix(free[1]! ** 2 + free[2]! ** 2, own * free[1]!, own ** 2),
          logVariance: free[0]!,
        };
      },
      lowest: 0,
      highest: infinite,
      unit: 0.1 * Math.sqrt(variance),
    },
    correlation:
      first > 0 && last > 0
        ? {
            estimate: Math.max(-1, Math.min(1, covariance / (first * last))),
            // logarithms, so that neither deviation turns negative and with it the correlation round
            free: Float64Array.of(logVariance, Math.log(first), Math.log(last)),
            map: (correlation, free) => {
              const [one, other] = [Math.exp(free[1]!), Math.exp(free[2]!)];
              return {
                ratio: matrix(one ** 2, correlation * one * other, other ** 2),
                logVariance: free[0]!,
              };
            },
            lowest: -1,
            highest: 1,
            unit: 0.1,
          }
        : null,
  };
}
