import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { shareBackNote } from "../../words/share-back.js";
import { sources } from "../../words/sources.js";
import { weeks } from "../../words/times.js";

/** By which estimator a share back was estimated. */
function shareMethod({ question }: Plan, competing: boolean): string {
  if (!competing)
    return `Share back: one minus the product-limit estimate of the share not yet back (${sources.productLimit}).`;
  return question.share_back === "of_everyone"
    ? `Share back: the cumulative incidence of the return beside the competing ends (${sources.competing}), so that it is a share of all. ${shareBackNote(question)}`
    : `Share back: one minus the product-limit estimate with competing ends taken as ends of follow-up (${sources.productLimit}). ${shareBackNote(question)}`;
}

const varianceName = ({ question }: Plan, competing: boolean): string =>
  competing && question.share_back === "of_everyone"
    ? "a variance by the delta method in the manner of Greenwood\u2019s"
    : "Greenwood\u2019s variance";

/** How curves, times and follow-up were estimated. */
export function curveMethods({ after_return, curves, follow_up, plan, tests }: Results): string[] {
  const all = curves.flatMap((family) => family.curves);
  const clustered = all.some(({ persons, n }) => n !== persons);
  const competing = follow_up.competing.some(({ n }) => isSome(n));
  return [
    `${shareMethod(plan, competing)} An injury censored on a day counts as at risk on that day.`,
    clustered
      ? `Intervals: on the log-log scale of the share not yet back (${sources.logLog}); where a person has several injuries in the groups shown, the variance is the infinitesimal jackknife summed within persons (${sources.jackknife}; ${sources.clusters}), elsewhere ${varianceName(plan, competing)} (${sources.greenwood}).`
      : `Intervals: on the log-log scale of the share not yet back (${sources.logLog}) with ${varianceName(plan, competing)} (${sources.greenwood}).`,
    `Where nobody or everybody is back, the interval of a share is that of a proportion by score limits (${sources.shareInterval}), of those still at risk or of all.`,
    `The day by which a given share is back (the median is the day by which half are): the first day on which the curve reaches it; its interval by inverting the interval of the curve (${sources.quantiles}).`,
    `Restricted mean time up to ${weeks(plan.horizon_weeks)}: the area under the share not yet back (${competing ? sources.restrictedMeanOfEveryone : sources.restrictedMean}), interval by Student\u2019s t (${sources.student}) on the logit of its share of that time, so that no limit is below none or above all of it; not given where follow-up ends before that.`,
    ...(competing
      ? [
          `Share that came to each other end: cumulative incidence (${sources.competing}), its interval on the log-log scale of that share${clustered ? "; where a person has several injuries in the groups shown, with the infinitesimal jackknife summed within persons" : ""}.`,
        ]
      : []),
    ...(after_return === null
      ? []
      : [
          `What came after the return: shares in the states not yet back, back, ruptured again and ended otherwise by the Aalen-Johansen estimator (${sources.states}), limits by the score method at the effective sample size; new ruptures per person-time with exact limits of a count (${sources.rate}), widened by the variance between people (${sources.clusteredRate}); complications with exact limits of a proportion (${sources.exactShare}). Of a new rupture and a return on one day the return comes first.`,
        ]),
    `Median follow-up: the product-limit median with the roles of return and censoring exchanged (${sources.followUp}). Completeness of follow-up: observed over possible time (${sources.completeness}). Heaping of rounded dates: ${sources.heaping}.`,
    ...(tests.some(({ method }) => method === "log_rank_trend")
      ? [`Trend over grades: log-rank test with the scores 1 to 5 (${sources.trend}).`]
      : []),
  ];
}
