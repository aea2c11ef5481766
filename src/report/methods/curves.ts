import type { Plan } from "../../study/plan.js";
import type { Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { lawsChosen } from "../../words/known-returns.js";
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
export function curveMethods(results: Results): string[] {
  const competing = results.follow_up.competing.some(({ n }) => isSome(n));
  return results.known_returns.path === "spans"
    ? [...spanMethods(results, competing), ...otherMethods(results, competing)]
    : dayMethods(results);
}

/** Curves from the spans between which returns are known to lie. */
function spanMethods({ curves, plan }: Results, competing: boolean): string[] {
  const clustered = curves.some((family) => family.curves.some(({ persons, n }) => n !== persons));
  const chosen = lawsChosen(curves);
  const ofEveryone = competing && plan.question.share_back === "of_everyone";
  return [
    `Shares back, days by which shares are back, mean times and their differences: an accelerated model of the time to a return (${sources.accelerated}) from spans, single days and ends of follow-up alike, with delayed entry in its likelihood; the law by Akaike\u2019s criterion (${sources.aic}) among log-normal, log-logistic, Weibull and generalised gamma${chosen === "" ? "" : ` (chosen for ${chosen}; the AIC of every law stands with the curves)`}; groups share a law and a spread, unless a model for each group is better by more than 2 in AIC and each has ten returns. ${ofEveryone ? "Each other end has a model of its own (exponential, Weibull or log-normal), and the share back is the part of all that returned before any other end, so that it is a share of all. " : ""}${competing ? shareBackNote(plan.question) : ""}`.trimEnd(),
    `Intervals: delta method${clustered ? ", scores summed within persons" : ""}, with a small-sample factor and Student\u2019s t, on the logit of a share (of a mean time: of its part of the horizon); limits of a difference recovered from those of the groups (${sources.recoveredLimits}), and its p from the level at which a limit comes to 0. Days by which a share is back: where the curve and its limits come to it. Within each value of a field the groups have a model of their own.`,
    `Adjusted: the same model with the strata and numbers that are held equal, its shares averaged over the injuries of both groups together (${sources.standardisedByModel}), among injuries with all of these recorded and in strata with enough injuries of both groups in which somebody returned.`,
    `Without a model: non-parametric maximum likelihood from the same spans (${sources.betweenVisits}), which leaves open where within its innermost intervals a share rises. Log-rank tests, hazard ratios and bands for differences over time need each return on a day and are not given.`,
  ];
}

function dayMethods(results: Results): string[] {
  const { curves, follow_up, plan } = results;
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
    ...otherMethods(results, competing),
  ];
}

/** What stands on days whichever way returns are known. */
function otherMethods({ after_return, curves, known_returns, tests }: Results, competing: boolean): string[] {
  const clustered = curves.some((family) => family.curves.some(({ persons, n }) => n !== persons));
  return [
    ...(competing
      ? [
          `Share that came to each other end: cumulative incidence (${sources.competing}), its interval on the log-log scale of that share${clustered ? "; where a person has several injuries in the groups shown, with the infinitesimal jackknife summed within persons" : ""}.`,
        ]
      : []),
    ...(after_return === null
      ? []
      : [
          `What came after the return: shares in the states not yet back, back, ruptured again and ended otherwise by the Aalen-Johansen estimator (${sources.states}), limits by the score method at the effective sample size; new ruptures per person-time with exact limits of a count (${sources.rate}), widened by the variance between people (${sources.clusteredRate}); complications with exact limits of a proportion (${sources.exactShare}). Of a new rupture and a return on one day the return comes first.${known_returns.path === "spans" ? ` The share back and not ruptured again at a landmark: the share back by the model less the shares that were back and have ruptured again, given up or died since, with limits recovered from those of the three (${sources.recoveredLimits}).` : ""}`,
        ]),
    `Median follow-up: the product-limit median with the roles of return and censoring exchanged (${sources.followUp}). Completeness of follow-up: observed over possible time (${sources.completeness}). Heaping of rounded dates: ${sources.heaping}.`,
    ...(tests.some(({ method }) => method === "log_rank_trend")
      ? [`Trend over grades: log-rank test with the scores 1 to 5 (${sources.trend}).`]
      : []),
  ];
}
