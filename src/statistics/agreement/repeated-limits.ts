import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { normalCritical } from "../shared/distributions.js";
import type { Reason } from "../shared/figure.js";
import { confidenceLevel, number, type OptionsOf, type Read } from "../shared/options.js";
import { limitsFromParts, type RepeatedLimit, type VariancePart } from "./repeated-limit-intervals.js";

/** Limits of agreement for one reading by each method, from several readings a subject. */
export interface RepeatedLimits {
  readonly subjects: number;
  /** In one method's column only; not used. Always 0 for pairs. */
  readonly subjectsUnpaired: number;
  readonly observations: number;
  readonly bias: number | null;
  readonly biasLower: number | null;
  readonly biasUpper: number | null;
  /** Of the difference between two single readings on one subject. */
  readonly standardDeviation: number | null;
  /** What the variance consists of, see the function; a share without repeats is null. */
  readonly variances: {
    readonly between: number | null;
    readonly withinFirst: number | null;
    readonly withinSecond: number | null;
  };
  readonly multiplier: number;
  readonly lower: RepeatedLimit | null;
  readonly upper: RepeatedLimit | null;
  readonly level: number;
  readonly reason: Reason | null;
}

export const repeatedLimitsOptions = {
  /** Of the intervals. Default 0.95. */
  level: confidenceLevel,
  /** Default 1.96 (to full precision). */
  multiplier: number("positive", normalCritical(0.95)),
};

export interface RepeatedLimitsOptions extends OptionsOf<typeof repeatedLimitsOptions> {}

export type Settings = Read<typeof repeatedLimitsOptions>;
type Counted = Pick<RepeatedLimits, "subjects" | "subjectsUnpaired" | "observations">;

export function checkSubjects(
  name: string,
  subjects: ArrayLike<number>,
  first: { name: string; values: ArrayLike<number> },
) {
  checkSameLength({ name, values: subjects }, first);
  checkColumn({ name, values: subjects }, "code");
}

export function withoutLimits(counted: Counted, settings: Settings): RepeatedLimits {
  return {
    ...counted,
    ...settings,
    bias: null,
    biasLower: null,
    biasUpper: null,
    standardDeviation: null,
    variances: { between: null, withinFirst: null, withinSecond: null },
    lower: null,
    upper: null,
    reason: counted.subjects === 0 ? "no-rows" : "too-few-rows",
  };
}

/** No parts: nothing varies. */
export function withLimits(
  counted: Counted,
  settings: Settings,
  components: {
    readonly bias: number;
    readonly biasVariance: number;
    readonly parts: readonly VariancePart[];
    readonly variances: RepeatedLimits["variances"];
  },
): RepeatedLimits {
  const { bias, biasVariance, parts, variances } = components;
  const common = { ...counted, ...settings, bias, variances };
  if (parts.length === 0) {
    const limit = { estimate: bias, approximate: null, recovered: null };
    const none = { biasLower: null, biasUpper: null, standardDeviation: 0 };
    return { ...common, ...none, lower: limit, upper: limit, reason: "no-variance" };
  }
  const limits = limitsFromParts({ bias, biasVariance, biasDf: counted.subjects - 1, parts }, settings);
  // methods that agree exactly subject by subject leave no doubt of the bias to be measured
  return biasVariance > 0
    ? { ...common, ...limits, reason: null }
    : { ...common, ...limits, biasLower: null, biasUpper: null, reason: "no-variance" };
}
