import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkResult,
  list,
  needed,
  type OptionsOf,
  type Read,
  readOptions,
  withDefault,
} from "../../shared/options.js";
import type { AcceleratedFit } from "./accelerated-fit.js";
import { errorLawOf } from "./error-laws.js";
import { byShape } from "./generalised-gamma.js";

export const predictionOptions = {
  /** One array a prediction: a value for each covariate, in the order of the fit's names. */
  covariates: needed(list<readonly ArrayLike<number>[]>("an array of rows of covariates")),
  /** Shares with the event whose times are wanted. Default 0.25, 0.5, 0.75. */
  shares: withDefault(list<ArrayLike<number>>(), [0.25, 0.5, 0.75]),
  /** Times, 0 or more, at which the share without the event is wanted. Default none. */
  times: withDefault(list<ArrayLike<number>>(), []),
};

export interface PredictionOptions extends OptionsOf<typeof predictionOptions> {}

/** The time by which a share has had the event; interval on the log scale. */
export interface PredictedTime {
  readonly share: number;
  readonly time: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** The share without the event at a time; interval on the scale of the law's error. */
export interface PredictedShare {
  readonly time: number;
  readonly notYet: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface Prediction {
  readonly quantiles: readonly PredictedTime[];
  readonly shares: readonly PredictedShare[];
  /** Why there are no numbers. */
  readonly reason: Reason | null;
}

interface Model {
  /** Intercept, coefficients, log scale, shape; 0 for a collinear covariate. */
  readonly values: readonly number[];
  /** Of the same. */
  readonly covariance: readonly (readonly number[])[];
  readonly scale: number;
}

/** Numbers without gaps, or why the model predicts nothing. */
function modelOf(fit: AcceleratedFit): Model | Reason {
  if (fit.intercept === null || fit.scale === null) {
    const named = fit.timeRatios.find((ratio) => ratio.reason !== null && ratio.reason !== "collinear");
    if (fit.status === "no-rows" || fit.status === "no-events") return fit.status;
    return named?.reason ?? (fit.status === "scale-to-zero" ? "no-variance" : "monotone-likelihood");
  }
  const filled = (row: readonly (number | null)[]): number[] => row.map((value) => value ?? 0);
  return {
    values: [fit.intercept, ...filled(fit.coefficients), fit.logScale ?? 0, fit.shape ?? 0],
    covariance: (fit.robustCovariance ?? fit.covariance).map(filled),
    scale: fit.scale,
  };
}

/** Standard error of a combination of intercept, coefficients, log scale and shape (left out for a law without). */
function errorOf({ covariance }: Model, by: readonly number[]): number {
  let variance = 0;
  covariance.forEach((row, i) => {
    row.forEach((value, j) => {
      variance += by[i]! * value * by[j]!;
    });
  });
  return Math.sqrt(Math.max(0, variance));
}

function checkWanted(fit: AcceleratedFit, options: Read<typeof predictionOptions>): void {
  options.covariates.forEach((values, i) => {
    const name = `covariates[${i}]`;
    checkSameLength({ name, values }, { name: "the fit's names", values: { length: fit.names.length } });
    checkColumn({ name, values }, "finite");
  });
  checkColumn({ name: "shares", values: options.shares }, "open share");
  checkColumn({ name: "times", values: options.times }, "not negative");
  if (options.covariates.length === 0)
    throw new ArgumentError({
      argument: "covariates",
      index: null,
      expected: "one array or more, each with a value for every covariate (an empty one for a model without)",
      found: "none",
    });
}

/**
 * Times by which given shares have had the event, and shares without it at given times, for given values of the covariates.
 *
 * Log time at share p: intercept + x'b + scale q(p), q the quantile of the law's error; its variance by the delta method from the fit's
 * covariance (the robust one where there are clusters); standard error of the time: time x that; limits exp(log time -+ z se). Share at t:
 * S(z), z = (log t - intercept - x'b) / scale; limits S(z +- z' se(z)). A collinear covariate has no part in it.
 *
 * General information about a group of people with these values, not a forecast for one.
 *
 * @returns nulls with the fit's reason where it has no estimates
 * @throws ArgumentError naming the argument and index at fault
 * @source Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 3
 */
export function acceleratedPrediction(fit: AcceleratedFit, options: PredictionOptions): Prediction[] {
  checkResult({ fit }, { expected: "a result of acceleratedModel", has: ["law", "names", "coefficients"] });
  const asked = readOptions(predictionOptions, options);
  checkWanted(fit, asked);
  const shares = Array.from(asked.shares);
  const times = Array.from(asked.times);
  const model = modelOf(fit);
  const nothing = { standardError: null, lower: null, upper: null };
  if (typeof model === "string")
    return asked.covariates.map(() => ({
      quantiles: shares.map((share) => ({ share, time: null, ...nothing })),
      shares: times.map((time) => ({ time, notYet: null, ...nothing })),
      reason: model,
    }));
  const critical = normalCritical(fit.level);
  return asked.covariates.map((values) => {
    const x = [1, ...Array.from(values)];
    const middle = x.reduce((sum, value, j) => sum + value * model.values[j]!, 0);
    const at = { fit, model, x, middle, critical };
    return {
      quantiles: shares.map((share) => timeAt(share, at)),
      shares: times.map((time) => shareAt(time, at)),
      reason: null,
    };
  });
}

interface Wanted {
  readonly fit: AcceleratedFit;
  readonly model: Model;
  readonly x: readonly number[];
  /** Intercept + x'b. */
  readonly middle: number;
  readonly critical: number;
}

/** The shift of z that a unit of the shape stands for at z: -(dS / d shape) / density; 0 for a law without. */
function shiftByShape({ law, shape }: AcceleratedFit, z: number): number {
  if (shape === null) return 0;
  const own = errorLawOf(law, shape);
  const change = byShape((at) => errorLawOf(law, at).logUpperTail(z), shape);
  return -change * Math.exp(own.logUpperTail(z) - own.logDensity(z));
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

function timeAt(share: number, { fit, model, x, middle, critical }: Wanted): PredictedTime {
  const z = errorLawOf(fit.law, fit.shape ?? 0).quantile(share);
  const away = model.scale * z;
  const error = errorOf(model, [...x, away, -model.scale * shiftByShape(fit, z)]);
  const time = Math.exp(middle + away);
  return {
    share,
    time: finite(time),
    standardError: finite(time * error),
    lower: finite(time * Math.exp(-critical * error)),
    upper: finite(time * Math.exp(critical * error)),
  };
}

function shareAt(time: number, { fit, model, x, middle, critical }: Wanted): PredictedShare {
  if (time === 0) return { time, notYet: 1, standardError: 0, lower: 1, upper: 1 };
  const law = errorLawOf(fit.law, fit.shape ?? 0);
  const z = (Math.log(time) - middle) / model.scale;
  const error = errorOf(model, [...x.map((value) => -value / model.scale), -z, shiftByShape(fit, z)]);
  return {
    time,
    notYet: Math.exp(law.logUpperTail(z)),
    standardError: Math.exp(law.logDensity(z)) * error,
    lower: Math.exp(law.logUpperTail(z + critical * error)),
    upper: Math.exp(law.logUpperTail(z - critical * error)),
  };
}
