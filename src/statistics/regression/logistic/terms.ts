import { chiSquareUpperTail, normalTwoSided } from "../../shared/distributions.js";
import type { LimitFit } from "./limit-fit.js";
import type { LogisticTerm } from "./logistic-types.js";
import { coordinatesAlong, type Objective } from "./objective.js";
import { type ProfileQuestion, profileAt, profileLimit } from "./profile.js";
import type { Fate } from "./separation.js";

/** One coefficient on its way to a term. */
export interface Candidate {
  readonly name: string;
  /** On the basis. */
  readonly functional: Float64Array;
  readonly fate: Fate;
  readonly coefficient: number | null;
  readonly standardError: number | null;
  /** Spread of its column. */
  readonly spread: number;
}

/** What profiles start from. */
export interface ProfileSetting {
  readonly fit: LimitFit;
  /** Of all rows, for coefficients that the limit sends to infinity. */
  readonly whole: Objective;
  readonly z: number;
  readonly maximumIterations: number;
  readonly tolerance: number;
}

/** A number too large to hold is none. */
const held = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;

const ratio = (logarithm: number | null): number | null =>
  held(logarithm === null ? null : Math.exp(logarithm));

type Inference = Pick<LogisticTerm, "lower" | "upper" | "statistic" | "p">;

const nothing: Inference = { lower: null, upper: null, statistic: null, p: null };

function waldOf({ coefficient, standardError }: Candidate, z: number): Inference {
  if (coefficient === null || standardError === null || standardError === 0) return nothing;
  const statistic = coefficient / standardError;
  const half = z * standardError;
  return { lower: coefficient - half, upper: coefficient + half, statistic, p: normalTwoSided(statistic) };
}

/** Likelihood-ratio test that the coefficient is 0. */
function tested(question: ProfileQuestion): Pick<Inference, "statistic" | "p"> {
  const statistic = Math.max(0, 2 * (question.best - profileAt(question, { value: 0 }).end.value));
  return { statistic, p: chiSquareUpperTail(statistic, 1) };
}

function profileOfFinite(one: Candidate, setting: ProfileSetting): Inference {
  const { fit, z, maximumIterations, tolerance } = setting;
  const { coefficient, standardError, functional } = one;
  if (coefficient === null || standardError === null) return nothing;
  const question: ProfileQuestion = {
    objective: fit.objective,
    along: fit.span === null ? functional : coordinatesAlong(fit.span, functional),
    best: fit.climb.end.value,
    start: fit.climb.point,
    maximumIterations,
    tolerance,
  };
  const limit = (side: 1 | -1): number | null =>
    profileLimit(question, {
      inside: coefficient,
      guess: coefficient + side * z * standardError,
      cut: z * z,
    });
  return { lower: limit(-1), upper: limit(1), ...tested(question) };
}

/** An infinite coefficient has one finite limit: where the profile, rising towards the far end, has come to within the cut of it. */
function profileOfInfinite(one: Candidate, setting: ProfileSetting): Inference {
  const { fit, whole, z, maximumIterations, tolerance } = setting;
  if (one.fate.limit === null) return nothing;
  const side = one.fate.limit === "infinity" ? 1 : -1;
  const question: ProfileQuestion = {
    objective: whole,
    along: one.functional,
    best: fit.climb.end.value,
    start: new Float64Array(whole.size),
    maximumIterations,
    tolerance,
  };
  const unit = side / (one.spread > 0 ? one.spread : 1);
  const cut = z * z;
  const enough = (value: number): boolean =>
    question.best - profileAt(question, { value }).end.value < cut / 2;
  let inside = unit;
  for (let doubling = 0; doubling < 8 && !enough(inside); doubling++) inside *= 2;
  const limit = enough(inside) ? profileLimit(question, { inside, guess: inside - unit, cut }) : null;
  return side === 1
    ? { lower: limit, upper: null, ...tested(question) }
    : { lower: null, upper: limit, ...tested(question) };
}

/** Why a coefficient has no error: one cluster only, or scores that cancel within clusters. */
const withoutError = (standardError: number | null): LogisticTerm["reason"] =>
  standardError === null ? "too-few-rows" : standardError === 0 ? "no-variance" : null;

/** @param settings the kind of interval, with what it needs */
export function termOf(
  one: Candidate,
  settings: { readonly interval: LogisticTerm["interval"]; readonly setting: ProfileSetting },
): LogisticTerm {
  const { interval, setting } = settings;
  const { name, coefficient, standardError, fate } = one;
  const inference =
    interval === "wald"
      ? waldOf(one, setting.z)
      : fate.finite
        ? profileOfFinite(one, setting)
        : profileOfInfinite(one, setting);
  return {
    name,
    coefficient,
    standardError,
    ...inference,
    oddsRatio: { estimate: ratio(coefficient), lower: ratio(inference.lower), upper: ratio(inference.upper) },
    interval,
    reason: fate.finite ? withoutError(standardError) : "monotone-likelihood",
    limit: fate.limit,
  };
}

/** A covariate that adds nothing to those before it. */
export const collinearTerm = (name: string, interval: LogisticTerm["interval"]): LogisticTerm => ({
  name,
  coefficient: null,
  standardError: null,
  ...nothing,
  oddsRatio: { estimate: null, lower: null, upper: null },
  interval,
  reason: "collinear",
  limit: null,
});
