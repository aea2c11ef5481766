import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteDescription } from "../description/index.js";
import { isEnough, rangeOf } from "./apart.js";

type Schedules = Harmonised["schedules"];

/**
 * From where on schedules are called unlike. Our choice, no source: a visit rhythm half as long again moves a return that is
 * seen at visits by a week or more, and 14 days is the width from which spans count as wide everywhere in a report.
 */
const unlikeFrom = { ratioOfDaysBetween: 1.5, spanDays: 14, wideShare: 0.3 } as const;

/** When each site saw its people and how exactly it knows their returns, and whether that is alike. */
export function schedulesOf(descriptions: readonly SiteDescription[]): Schedules {
  const seen = descriptions.filter(({ schedule }) => isEnough(schedule.longest_gap.n));
  const returned = descriptions.filter(({ returns }) => isEnough(returns.n));
  const between = rangeOf(seen.map(({ schedule }) => schedule.days_between.median));
  const spans = rangeOf(returned.map(({ returns }) => returns.span_days.median));
  const wide = rangeOf(returned.map(({ returns }) => returns.wide_share));
  const because: Schedules["because"] = [
    ...(between !== null && between.greatest > unlikeFrom.ratioOfDaysBetween * between.least
      ? (["days_between"] as const)
      : []),
    ...(spans !== null && spans.greatest - spans.least > unlikeFrom.spanDays ? (["span_days"] as const) : []),
    ...(wide !== null && wide.greatest - wide.least > unlikeFrom.wideShare ? (["wide_share"] as const) : []),
  ];
  const isKnown = between !== null || spans !== null || wide !== null;
  return {
    verdict: because.length > 0 ? "unlike" : isKnown ? "alike" : "not_known",
    because,
    sites: descriptions.map(({ site, schedule, returns }) => ({
      site,
      ...schedule,
      returns: returns.n,
      span_days: returns.span_days,
      wide_share: returns.wide_share,
    })),
  };
}
