import type { OutcomeRecord } from "../cohort/record.js";
import { describe } from "../statistics/index.js";
import { fisher } from "../statistics/proportions/index.js";
import type { ExactResults } from "./exact-results.js";
import type { Comparison, Specification } from "./specification.js";
import { type Found, type SoFar, warn } from "./warn.js";

/** A follow-up less complete than this is said (a rule of thumb, no source). */
export const completeEnough = 0.9;
/** Shares lost to follow-up that lie so far apart between compared groups are said (common practice, no source). */
export const lostApart = 0.1;
/** Below this p a difference in loss is more than chance would give; shares alone lie as far apart in a third of small studies. */
export const lostDoubtfulBelow = 0.05;
/** Days of wide spans a return, by which groups may differ before it is said: so wide a mean keeps intervals in gapWidths (measured). */
export const widthsApart = 3;
/** Below this p a difference of the widths is more than chance would give. */
export const scheduleDoubtfulBelow = 0.05;

/** From this upper quartile of the days to the first visit on it is warned of (our choice). */
export const lateVisitDays = 14;

/** Everybody is at risk from the injury on, and yet nobody who was back before coming could be seen: how late they came. */
export function lateVisitsWarning(
  records: readonly OutcomeRecord[],
  { question }: Pick<Specification, "question">,
): Found[] {
  if (question.clock !== "injury" || question.entry !== "clock") return [];
  const known = records.flatMap(({ covariates, end, time }) =>
    covariates.delay_days === null ? [] : [{ delay: covariates.delay_days, end, time }],
  );
  const { median, upperQuartile } = describe(known.map(({ delay }) => delay));
  if (median === null || upperQuartile === null || upperQuartile < lateVisitDays) return [];
  const n = known.filter(({ delay, end, time }) => end === "milestone" && time <= delay).length;
  return [
    warn("first-visits-late", {
      median_days: median,
      upper_quartile_days: upperQuartile,
      n,
      of: known.length,
    }),
  ];
}

export function followUpWarnings(
  { follow_up, known_returns }: SoFar,
  { horizonDay: horizon_days, question }: Pick<Specification, "horizonDay" | "question">,
): Found[] {
  const { completeness, competing, known, whole_weeks } = follow_up;
  const found: Found[] = [];
  if (completeness !== null && completeness < completeEnough) {
    found.push(warn("completeness-low", { share: completeness, horizon_days }));
  }
  const competingEnds = competing.reduce((sum, { n }) => sum + n, 0);
  if (competingEnds > 0) found.push(warn("competing-ends-present", { n: competingEnds, of: follow_up.n }));
  const inexact = known
    .filter(({ code }) => code !== "day" && code !== "not_reached")
    .reduce((sum, { n }) => sum + n, 0);
  if (known_returns.path === "spans") {
    found.push(warn("estimated-from-spans", { n: inexact, of: follow_up.milestones }));
  } else if (inexact > 0) {
    found.push(warn("inexact-dates", { n: inexact, of: follow_up.milestones, rule: question.inexactDates }));
  }
  if (isHeaped(whole_weeks)) {
    found.push(warn("heaped-dates", { n: whole_weeks.on_whole_weeks, of: whole_weeks.milestones }));
  }
  return found;
}

/** Compared groups whose spans are of unlike widths: they were seen on unlike schedules, and days placed in them differ by that alone. */
export function unlikeSchedulesWarning({ known_returns: { groups, comparison, path } }: SoFar): Found[] {
  const compared = groups
    .filter(({ family, mean_wide_days }) => family === "compared" && mean_wide_days !== null)
    .toSorted((one, other) => other.mean_wide_days! - one.mean_wide_days!);
  const [widest, narrowest] = [compared.at(0), compared.at(-1)];
  if (widest === undefined || narrowest === undefined || comparison.p === null) return [];
  const apart = widest.mean_wide_days! - narrowest.mean_wide_days!;
  if (comparison.p >= scheduleDoubtfulBelow || apart <= widthsApart) return [];
  return [
    warn("unlike-schedules", {
      group: widest.label,
      wide_days: widest.mean_wide_days!,
      other: narrowest.label,
      other_wide_days: narrowest.mean_wide_days!,
      p: comparison.p,
      path,
    }),
  ];
}

/** The compared groups of which most and fewest were lost, where they lie further apart than chance would put them; groups too small to tell are left out. */
export function unequalLossWarning(
  { lost }: SoFar,
  { by: field, labels, smallestGroup }: Pick<Comparison, "by" | "labels" | "smallestGroup">,
): Found[] {
  const groups = (lost.groupings.find(({ by }) => by === field)?.groups ?? [])
    .filter(({ label, n }) => labels.includes(label) && n >= Math.max(1, smallestGroup))
    .map((group) => ({ ...group, share: group.lost / group.n }))
    .toSorted((one, other) => other.share - one.share);
  const [most, fewest] = [groups.at(0), groups.at(-1)];
  if (most === undefined || fewest === undefined) return [];
  // rounding: 30 % less 20 % falls a hair short of 10 %
  if (most.share - fewest.share < lostApart - 1e-12) return [];
  const { twoSided } = fisher({
    a: most.lost,
    b: most.n - most.lost,
    c: fewest.lost,
    d: fewest.n - fewest.lost,
  });
  // the two were chosen among all pairs because they lie apart
  const p = Math.min(1, (twoSided * groups.length * (groups.length - 1)) / 2);
  if (p >= lostDoubtfulBelow) return [];
  return [
    warn("lost-unequally", {
      group: most.label,
      lost: most.lost,
      n: most.n,
      share: most.share,
      other: fewest.label,
      other_lost: fewest.lost,
      other_n: fewest.n,
      other_share: fewest.share,
      p,
    }),
  ];
}

/** More dates on whole weeks than one in seven by 3 standard errors (binomial), and at least 20 dates to tell by. */
function isHeaped({ milestones, on_whole_weeks }: ExactResults["follow_up"]["whole_weeks"]): boolean {
  if (milestones < 20) return false;
  const expected = 1 / 7;
  const error = Math.sqrt((expected * (1 - expected)) / milestones);
  return on_whole_weeks / milestones > expected + 3 * error;
}
