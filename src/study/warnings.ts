import type { OutcomeRecord } from "../cohort/record.js";
import { labelOf } from "../schema/labels.js";
import { couldMove } from "./could-move.js";
import type { ExactEffect } from "./exact-results.js";
import type { Grouping } from "./groups.js";
import { imbalanceOf } from "./imbalance.js";
import type { Queried } from "./queried.js";
import type { Warning } from "./results.js";
import type { Comparison, Specification } from "./specification.js";
import { type Found, type SoFar, warn } from "./warn.js";
import {
  followUpWarnings,
  lateVisitsWarning,
  unequalLossWarning,
  unlikeSchedulesWarning,
} from "./warnings-of-follow-up.js";

/** Fewer milestones than this in a group and the intervals can't be relied on (a rule of thumb, no source). */
export const fewEvents = 10;
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
    readonly queried: Queried;
  },
): Warning[] {
  return found(results, given).map((warning) => ({
    ...warning,
    could_move: couldMove(warning, { ...given, results }),
  }));
}

function found(
  results: SoFar,
  {
    records,
    specification,
    queried,
  }: {
    readonly records: readonly OutcomeRecord[];
    readonly specification: Specification;
    readonly queried: Queried;
  },
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
    ...queriesWarning(queried, records),
  ];
}

/** So many characteristics of a group are named, the largest differences first. */
const named = 3;

/** What the groups differ in that is not held equal. */
function imbalanceWarnings(
  { cohort, effects }: SoFar,
  { adjustFor, reference }: Pick<Comparison, "adjustFor" | "reference">,
): Found[] {
  if (effects.length === 0) return [];
  return imbalanceOf(cohort, { adjustFor }).flatMap(({ label, fields }) =>
    fields
      .slice(0, named)
      .map(({ field, size }) =>
        warn("imbalance-not-held", { compared: label, reference, field: labelOf(field), size }),
      ),
  );
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

/** Open queries about injuries that are used as they stand. */
function queriesWarning(
  { queries, notKept, injuries }: Queried,
  { length: of }: readonly OutcomeRecord[],
): Found[] {
  if (injuries.size === 0) return [];
  const facts = { n: injuries.size, of, queries };
  return [warn("queries-open", notKept > 0 ? { ...facts, at_least: "yes" } : facts)];
}

/** Injuries that were set aside: their number among all that were read. */
function setAsideWarning({ accounting }: SoFar): Found[] {
  const injuries = accounting.tables.filter(({ table }) => table === "injuries" || table === "single_sheet");
  const n = injuries.reduce((sum, { set_aside }) => sum + set_aside, 0);
  const of = injuries.reduce((sum, { read }) => sum + read, 0);
  return n > 0 ? [warn("rows-set-aside", { n, of })] : [];
}

/** The same id at several sites, where the study file leaves open whether that is one person. */
function severalSitesWarning({ accounting, plan }: SoFar): Found[] {
  const several = accounting.analysis.ids_at_several_sites;
  if (several === undefined || plan.data.person_ids !== undefined) return [];
  return [warn("person-ids-at-several-sites", { ...several })];
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
    ...severalSitesWarning(results),
    ...adjustFor
      .filter((field) => without(field) > 0)
      .map((field) => warn("covariates-missing", { field: labelOf(field), n: without(field), of: analysed })),
    ...(distances !== null && distances.injuries_with_both < analysed
      ? [warn("distances-missing", { n: analysed - distances.injuries_with_both, of: analysed })]
      : []),
    ...(smallest < smallestGroup ? [warn("small-counts", { below: smallestGroup })] : []),
  ];
}
