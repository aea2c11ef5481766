export {
  type IntervalCurve,
  type IntervalCurveOptions,
  intervalCurve,
} from "./interval-curve.js";
export type { IntervalColumns } from "./interval-data.js";
export {
  type IntervalQuantile,
  type IntervalShare,
  intervalQuantile,
  intervalShares,
} from "./interval-reading.js";
export type { GroupedIntervals } from "./interval-score-sums.js";
export {
  type IntervalPermutationTest,
  type IntervalScoreTest,
  type IntervalTestOptions,
  intervalPermutationTest,
  intervalScoreTest,
} from "./interval-score-test.js";
export type { IntervalScores } from "./interval-scores.js";
