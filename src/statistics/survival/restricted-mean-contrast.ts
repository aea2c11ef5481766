import { checkColumnNames, type NamesOf, readOptions } from "../shared/options.js";
import type { TimeToEvent } from "../shared/time-to-event.js";
import { type Difference, differenceOf, type Ratio, ratioOf } from "./contrast.js";
import {
  type RestrictedMean,
  type RestrictedMeanOptions,
  restrictedMean,
  restrictedMeanOptions,
} from "./restricted-mean.js";

export interface RestrictedMeanContrast {
  readonly a: RestrictedMean;
  readonly b: RestrictedMean;
  /** Mean time without the event, a less b. */
  readonly difference: Difference;
  /** Mean time without the event, a over b. */
  readonly ratio: Ratio;
  /** Mean time with the event within the horizon (horizon less the restricted mean), a over b. */
  readonly ratioAfterEvent: Ratio;
  /** The horizon lies beyond the follow-up of these groups, whose curves were carried flat: the contrast rests on that. */
  readonly beyondFollowUp: readonly ("a" | "b")[];
}

const restrictedMeanContrastNames: NamesOf<Parameters<typeof restrictedMeanContrast>[0]> = {
  a: true,
  b: true,
};

/**
 * Restricted means of two independent groups up to the same horizon: difference, ratio, and ratio of the times after the event.
 *
 * Difference by adding variances, ratios on the log scale by the delta method; see restrictedMean, differenceOf and ratioOf. The ratio of the
 * times after the event is the one that speaks when the event (a return) is wanted.
 *
 * @returns nulls with `no-rows` where a group is empty; `no-variance` or `not-positive` where a ratio has no interval or value, such as
 *   a group without events before the horizon
 * @throws ArgumentError naming the column and index of a value at fault, the horizon or the level
 * @source Royston & Parmar 2013, BMC Med Res Methodol 13:152; Uno et al. 2014, J Clin Oncol 32:2380
 */
export function restrictedMeanContrast(
  groups: { readonly a: TimeToEvent; readonly b: TimeToEvent },
  options: RestrictedMeanOptions,
): RestrictedMeanContrast {
  checkColumnNames(restrictedMeanContrastNames, { groups });
  const { level, horizon } = readOptions(restrictedMeanOptions, options);
  const [a, b] = [restrictedMean(groups.a, options), restrictedMean(groups.b, options)];
  // without events the area is the horizon but for rounding
  const after = ({ estimate, standardError, eventsBeforeHorizon }: RestrictedMean) => ({
    estimate: estimate === null ? null : eventsBeforeHorizon === 0 ? 0 : horizon - estimate,
    standardError,
  });
  return {
    a,
    b,
    difference: differenceOf(a, b, { level }),
    ratio: ratioOf(a, b, { level }),
    ratioAfterEvent: ratioOf(after(a), after(b), { level }),
    beyondFollowUp: (["a", "b"] as const).filter((one) => (one === "a" ? a : b).beyondFollowUp),
  };
}
