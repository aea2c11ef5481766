import type { OutcomeRecord } from "../cohort/record.js";
import { labelOf } from "../schema/labels.js";
import { describe } from "../statistics/index.js";
import { fisher } from "../statistics/proportions/index.js";
import { couldMove } from "./could-move.js";
import type { ExactEffect, ExactResults } from "./exact-results.js";
import type { Grouping } from "./groups.js";
import type { Warning } from "./results.js";
import type { Comparison, Specification } from "./specification.js";

type SoFar = Omit<ExactResults, "warnings" | "small_cells">;

/** Fewer milestones than this in a group and the intervals can't be relied on (a rule of thumb, no source). */
export const fewEvents = 10;
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
/** Below this p the assumption of proportional hazards is called doubtful. */
export const doubtfulBelow = 0.05;

/** What a reader must know before trusting the figures, each from what the run found. */
export function warningsOf(
  results: SoFar,
  given: {
    readonly records: readonly OutcomeRecord[];
    readonly specification: Specification;
    readonly all: Grouping;
    readonly compared: Grouping;
  },
): Warning[] {
  return found(results, given).map((warning) => ({
    ...warning,
    could_move: couldMove(warning, { ...given, results }),
  }));
}

/** A warning before it is computed what it could do. */
type Found = Omit<Warning, "could_move">;

function found(
  results: SoFar,
  {
    records,
    specification,
  }: { readonly records: readonly OutcomeRecord[]; readonly specification: Specification },
): Found[] {
  const { comparison, horizonDay } = specification;
  const isByTreatment = comparison.by === "first_treatment";
  return [
    ...definitionsWarning(results),
    ...lateVisitsWarning(records, specification),
    ...(isByTreatment || results.effects.length > 0 ? [warn("not-randomised")] : []),
    ...followUpWarnings(results, specification),
    ...unlikeSchedulesWarning(results),
    ...unequalLossWarning(results, comparison),
    ...groupWarnings(results, horizonDay),
    ...overlapWarnings(results),
    ...imbalanceWarnings(results, comparison),
    ...assumptionWarnings(results, comparison),
    ...dataWarnings(results, { records, comparison }),
  ];
}

const warn = (code: Warning["code"], facts: Warning["facts"] = {}): Found => ({ code, facts });

/** By what a group differs from the reference, beyond this standardised difference, is said (common practice, no source). */
const dissimilarBeyond = 0.1;
/** So many characteristics of a group are named, the largest differences first. */
const named = 3;

/** What the groups differ in that is not held equal. */
function imbalanceWarnings(
  { cohort, effects }: SoFar,
  { adjustFor, reference }: Pick<Comparison, "adjustFor" | "reference">,
): Found[] {
  if (effects.length === 0) return [];
  const firsts = cohort.rows.filter(({ variable }, row) => variable !== cohort.rows[row - 1]?.variable);
  return cohort.groups.flatMap(({ label }, place) =>
    firsts
      .filter(({ variable }) => !(adjustFor as readonly string[]).includes(variable))
      .map(({ variable, standardised_differences }) => ({
        field: labelOf(variable),
        size: Math.abs(standardised_differences[place] ?? 0),
      }))
      .filter(({ size }) => size > dissimilarBeyond)
      .toSorted((one, other) => other.size - one.size)
      .slice(0, named)
      .map((apart) => warn("imbalance-not-held", { compared: label, reference, ...apart })),
  );
}

/** From this upper quartile of the days to the first visit on it is warned of (our choice). */
export const lateVisitDays = 14;

/** Everybody is at risk from the injury on, and yet nobody who was back before coming could be seen: how late they came. */
function lateVisitsWarning(
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

/** What each site means by the milestone, where they do not mean the same. */
function definitionsWarning({ definitions }: SoFar): Found[] {
  if (definitions === null) return [];
  const each = definitions.rows.map(({ definition, sites }) => {
    const meaning = definition === null ? "not stated" : `\u201c${definition}\u201d`;
    return `${sites.length === 0 ? "no site recorded" : sites.join(", ")}: ${meaning}`;
  });
  return [
    warn("definitions-differ", { definitions: each.join("; "), pooled: definitions.pooled ? "yes" : "no" }),
  ];
}

function followUpWarnings(
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
function unlikeSchedulesWarning({ known_returns: { groups, comparison, path } }: SoFar): Found[] {
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
function unequalLossWarning(
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

function groupWarnings({ curves }: SoFar, horizonDay: number): Found[] {
  const compared = curves.find(({ family }) => family === "compared")?.curves ?? [];
  return [
    ...compared
      .filter(({ events }) => events < fewEvents)
      .map(({ label, n, events }) => warn("few-events", { group: label, n, events })),
    ...curves
      .flatMap((family) => family.curves)
      .filter(({ restricted_mean }) => restricted_mean.days.reason === "beyond-follow-up")
      .map(({ family, label, last_day }) =>
        warn("horizon-beyond-follow-up", {
          family,
          group: label,
          last_day,
          horizon_days: horizonDay,
        }),
      ),
    ...curves
      .flatMap((family) => family.curves)
      .filter(({ falls_early }) => falls_early)
      .map(({ family, label }) => warn("curve-falls-early", { family, group: label })),
    ...(curves.some(({ entry }) => entry === "treatment") ? [warn("delayed-entry-by-treatment")] : []),
  ];
}

/** Once for each pair: all its differences over strata leave out the same. */
function overlapWarnings({ effects }: SoFar): Found[] {
  const isStandardised = ({ method }: ExactEffect) => method === "curves_standardised";
  const pairOf = ({ compared, reference }: ExactEffect) => JSON.stringify([compared, reference]);
  const ofPairs = new Map(effects.filter(isStandardised).map((effect) => [pairOf(effect), effect]));
  return [...ofPairs.values()]
    .map((effect) => ({
      ...effect,
      // injuries without the field are told of by themselves
      left_out: effect.left_out.filter(({ reason }) => reason !== "missing-covariate"),
    }))
    .filter(({ left_out }) => left_out.length > 0)
    .map(({ compared, reference, left_out, n }) =>
      warn("overlap-lacking", {
        compared,
        reference,
        strata: left_out.map(({ stratum }) => stratum).join("; "),
        left_out: left_out.reduce((sum, stratum) => sum + stratum.n, 0),
        used: n.compared + n.reference,
      }),
    );
}

function assumptionWarnings({ tests }: SoFar, { numbers }: Pick<Comparison, "numbers">): Found[] {
  return [
    ...tests
      .filter(({ method, p }) => method === "proportionality" && p !== null && p < doubtfulBelow)
      .map(({ groups, p }) => warn("proportionality-doubtful", { group: groups[0]?.label ?? "", p: p ?? 0 })),
    ...(numbers.length > 0
      ? [warn("numeric-adjustment-in-ratio-only", { fields: numbers.map(labelOf).join(", ") })]
      : []),
  ];
}

/** Injuries that were set aside: their number among all that were read. */
function setAsideWarning({ accounting }: SoFar): Found[] {
  const injuries = accounting.tables.filter(({ table }) => table === "injuries" || table === "single_sheet");
  const n = injuries.reduce((sum, { set_aside }) => sum + set_aside, 0);
  const of = injuries.reduce((sum, { read }) => sum + read, 0);
  return n > 0 ? [warn("rows-set-aside", { n, of })] : [];
}

function dataWarnings(
  results: SoFar,
  {
    records,
    comparison,
  }: {
    readonly records: readonly OutcomeRecord[];
    readonly comparison: Pick<Comparison, "adjustFor" | "smallestGroup">;
  },
): Found[] {
  const { adjustFor, smallestGroup } = comparison;
  const { accounting, distances } = results;
  const { analysed, persons } = accounting.analysis;
  const without = (field: (typeof adjustFor)[number]) =>
    records.filter(({ covariates }) => covariates[field] === null).length;
  const smallest = Math.min(
    ...results.curves.flatMap(({ family, curves }) => (family === "all" ? [] : curves.map(({ n }) => n))),
  );
  const assumed = records.filter(({ isTreatmentStartAssumed }) => isTreatmentStartAssumed).length;
  return [
    ...setAsideWarning(results),
    ...(assumed > 0 ? [warn("treatment-starts-assumed", { n: assumed, of: analysed })] : []),
    ...(persons < analysed ? [warn("several-injuries-a-person", { persons, injuries: analysed })] : []),
    ...adjustFor
      .filter((field) => without(field) > 0)
      .map((field) => warn("covariates-missing", { field: labelOf(field), n: without(field), of: analysed })),
    ...(distances !== null && distances.injuries_with_both < analysed
      ? [warn("distances-missing", { n: analysed - distances.injuries_with_both, of: analysed })]
      : []),
    ...(smallest < smallestGroup ? [warn("small-counts", { below: smallestGroup })] : []),
  ];
}
