import { ArgumentError, checkNumber } from "../shared/arguments.js";
import { checkResult, needed, number, type OptionsOf, readOptions } from "../shared/options.js";
import { type SmallSampleInterval, studentInterval, studentIntervalOptions } from "./small-sample.js";

export const meanTimeIntervalOptions = {
  ...studentIntervalOptions,
  /** Time up to which the mean is taken, above 0, in its unit. */
  horizon: needed(number("positive")),
};

export interface MeanTimeIntervalOptions extends OptionsOf<typeof meanTimeIntervalOptions> {}

/**
 * Interval of a restricted mean M by Student's t on the logit of its share of the horizon H: logit(M / H) -+ t SE H / (M (H - M)), with the small-sample factor
 * and the degrees of freedom of studentInterval. So no limit lies below 0 or beyond the horizon, and the interval is as skewed as the mean of
 * times cut at the horizon is. Measured at 10 to 40 rows beside Student's interval and score limits it held the truth most often.
 *
 * @param mean estimate: 0 to the horizon; standardError: large-sample error, 0 or more
 * @returns no limits with `no-variance` for an error of 0, or a mean of 0 or of the horizon, with `too-few-rows` for n <= k; no p
 * @throws ArgumentError for an estimate outside 0 to the horizon, a negative error, or an option
 * @source Student 1908, Biometrika 6:1; logit: Borgan & Liestol 1990, Scand J Stat 17:35
 */
export function meanTimeInterval(
  mean: { readonly estimate: number; readonly standardError: number },
  options: MeanTimeIntervalOptions,
): SmallSampleInterval {
  checkResult(
    { mean },
    { expected: "an object with an estimate and its standardError", has: ["estimate", "standardError"] },
  );
  const { units, curves, level, horizon } = readOptions(meanTimeIntervalOptions, options);
  const { estimate, standardError } = mean;
  checkNumber({ name: "estimate", value: estimate }, "finite");
  const share = estimate / horizon;
  // an area may pass its horizon by a rounding
  if (!(share >= 0 && share <= 1 + 1e-9))
    throw new ArgumentError({
      argument: "estimate",
      index: null,
      expected: `a number from 0 to the horizon, which is ${horizon}`,
      found: estimate,
    });
  checkNumber({ name: "standardError", value: standardError }, "not negative");
  if (standardError === 0 || share <= 0 || share >= 1)
    return { estimate, lower: null, upper: null, p: null, reason: "no-variance" };
  const { lower, upper, reason } = studentInterval(
    {
      estimate: Math.log(share / (1 - share)),
      standardError: standardError / (horizon * share * (1 - share)),
    },
    { units, curves, level },
  );
  const timeAt = (logit: number | null): number | null =>
    logit === null ? null : horizon / (1 + Math.exp(-logit));
  return { estimate, lower: timeAt(lower), upper: timeAt(upper), p: null, reason };
}
