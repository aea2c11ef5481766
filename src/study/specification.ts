import type { Question } from "../cohort/question.js";
import { wholeDays } from "../cohort/whole-days.js";
import type { GroupField } from "../schema/covariates.js";
import type { Adjustable, Comparable, InexactReturns, Plan, ShareBack } from "./plan.js";
import { questionOf } from "./question-of.js";
import { adjustersOf, type NumericAdjuster, type StratumAdjuster } from "./strata.js";

/** A time at which the shares back are read off. */
export interface Landmark {
  /** As the study file writes it. */
  readonly week: number;
  /** The whole day that stands for it. */
  readonly day: number;
  /** Whether it is the one that the plain words and the forest speak of. */
  readonly isMain: boolean;
}

/** Which groups are set against which, and what is held equal between them. */
export interface Comparison {
  readonly by: Comparable;
  /** In the order of the report. */
  readonly labels: readonly string[];
  readonly reference: string;
  readonly adjustFor: readonly Adjustable[];
  /** Of the adjusting fields, those that make strata. */
  readonly strata: readonly StratumAdjuster[];
  /** Of the adjusting fields, those that hold a number. */
  readonly numbers: readonly NumericAdjuster[];
  /** The field within whose values the groups are set side by side; null for none. */
  readonly within: GroupField | null;
  /** Fewest injuries of each group in a stratum. */
  readonly smallestGroup: number;
}

/** The distance that is compared, and from where on a rupture is called complete. */
export interface DistanceAsked {
  readonly pulley: Plan["distance"]["pulley"];
  readonly position: Plan["distance"]["position"];
  readonly thresholdMm: number;
}

/** A study file in the units of the estimators: made from the plan once, and each of them takes what it needs of it. */
export interface Specification {
  /** What is asked of each injury. */
  readonly question: Question;
  /** What becomes, in a share back, of those who came to a competing end. */
  readonly shareBack: ShareBack;
  /** Whether sites that define the milestone differently are counted together. */
  readonly definitionsMayDiffer: boolean;
  /** What becomes of returns that are not known to the day. */
  readonly inexactReturns: InexactReturns;
  /** Last day of the restricted mean time, counted from the clock. */
  readonly horizonDay: number;
  readonly landmarks: readonly Landmark[];
  readonly comparison: Comparison;
  readonly distance: DistanceAsked;
  /** Confidence level of every interval, between 0 and 1. */
  readonly level: number;
  /** Whether each person's dates are on a calendar of their own, so that no month is told. */
  readonly ownCalendars: boolean;
  /** Seed of whatever is drawn at random. */
  readonly seed: number;
}

/**
 * The plan of a study as estimators take it. Weeks become whole days, each the nearest, half a day counted up.
 *
 * @param plan a study file that was read, with its defaults filled in
 */
export function specificationOf(plan: Plan): Specification {
  const { compare, distance } = plan;
  return {
    question: questionOf(plan),
    shareBack: plan.question.share_back,
    definitionsMayDiffer: plan.question.definitions === "may_differ",
    inexactReturns: plan.question.inexact_returns,
    horizonDay: wholeDays(plan.horizon_weeks),
    landmarks: plan.landmarks_weeks.map((week) => ({
      week,
      day: wholeDays(week),
      isMain: week === plan.main_landmark_weeks,
    })),
    comparison: {
      by: compare.by,
      labels: compare.groups,
      reference: compare.reference,
      adjustFor: compare.adjust_for,
      ...adjustersOf(compare.adjust_for),
      within: compare.within === compare.by ? null : compare.within,
      smallestGroup: compare.smallest_group,
    },
    distance: { pulley: distance.pulley, position: distance.position, thresholdMm: distance.threshold_mm },
    level: plan.confidence_level,
    ownCalendars: plan.data.calendar === "per_person",
    seed: plan.seed,
  };
}

/** Rounding that a number of weeks times seven may carry. */
const slack = 1e-9;

/** The horizon and the landmarks that a plan writes with part of a day, and the whole day that each is counted as. */
export function roundedTimes(plan: Plan): readonly { readonly weeks: number; readonly days: number }[] {
  return [...new Set([plan.horizon_weeks, ...plan.landmarks_weeks])]
    .map((weeks) => ({ weeks, days: wholeDays(weeks) }))
    .filter(({ weeks, days }) => Math.abs(weeks * 7 - days) > slack);
}
