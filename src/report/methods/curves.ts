import type { Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { sources } from "../../words/sources.js";
import { weeks } from "../../words/times.js";

/** How curves, times and follow-up were estimated. */
export function curveMethods({ curves, follow_up, plan, tests }: Results): string[] {
  const all = curves.flatMap((family) => family.curves);
  const clustered = all.some(({ persons, n }) => n !== persons);
  const competing = follow_up.competing.some(({ n }) => isSome(n));
  return [
    `Share back: one minus the product-limit estimate of the share not yet back (${sources.productLimit}); an injury censored on a day counts as at risk on that day.`,
    clustered
      ? `Intervals: on the log-log scale (${sources.logLog}); where a person has several injuries in the groups shown, the variance is the infinitesimal jackknife summed within persons (${sources.jackknife}; ${sources.clusters}), elsewhere Greenwood\u2019s (${sources.greenwood}).`
      : `Intervals: on the log-log scale (${sources.logLog}) with Greenwood\u2019s variance (${sources.greenwood}).`,
    `The day by which a given share is back (the median is the day by which half are): the first day on which the curve reaches it; its interval by inverting the interval of the curve (${sources.quantiles}).`,
    `Restricted mean time up to ${weeks(plan.horizon_weeks)}: the area under the share not yet back (${sources.restrictedMean}), interval by Student\u2019s t (${sources.student}); not given where follow-up ends before that.`,
    ...(competing
      ? [
          `Share back with competing ends counted as not back: cumulative incidence (${sources.competing}), its interval on the log-log scale${clustered ? "; where a person has several injuries in the groups shown, with the infinitesimal jackknife summed within persons" : ""}.`,
        ]
      : []),
    `Median follow-up: the product-limit median with the roles of return and censoring exchanged (${sources.followUp}). Completeness of follow-up: observed over possible time (${sources.completeness}). Heaping of rounded dates: ${sources.heaping}.`,
    ...(tests.some(({ method }) => method === "log_rank_trend")
      ? [`Trend over grades: log-rank test with the scores 1 to 5 (${sources.trend}).`]
      : []),
  ];
}
