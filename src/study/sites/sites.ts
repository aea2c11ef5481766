import type { OutcomeRecord } from "../../cohort/record.js";
import { curveFamily } from "../curves.js";
import { effectsOf } from "../effects.js";
import type { ExactEffect, ExactResults } from "../exact-results.js";
import { everybody, type Grouping, groupingOf, type Settled } from "../groups.js";
import { measureOf } from "../measures/index.js";
import { pairsOf } from "../pairs.js";
import { cellOf } from "../within.js";
import { frailtiesOf } from "./frailty.js";

type Sites = NonNullable<ExactResults["sites"]>;

/** The analysed injuries, and the groups that are compared. */
interface Answered {
  readonly records: readonly OutcomeRecord[];
  readonly compared: Grouping;
}

/**
 * Each site's own answer beside the joined one, the joined answer without each site, and the hazards regression with a frailty of
 * the site. Sites come in the order of their rows.
 *
 * @param options isPooled: whether the sites mean the same by the milestone, or may be counted together; else nothing is joined
 */
export function sitesOf(
  { records, compared }: Answered,
  specification: Settled,
  { isPooled }: { readonly isPooled: boolean },
): Sites {
  const names = [...new Set(records.flatMap(({ site }) => site ?? []))];
  return {
    answers: names.map((site) => answerOf({ site, records, compared }, specification)),
    without:
      isPooled && names.length > 1
        ? names.map((site) => ({
            site,
            n: records.filter((record) => record.site !== site).length,
            effects: adjustedOnly(effectsIn(compared, specification, (record) => record.site !== site)),
          }))
        : [],
    frailty: isPooled && compared.modelled === null ? frailtiesOf(compared, specification) : [],
  };
}

function answerOf(
  { site, records, compared }: Answered & { readonly site: string },
  specification: Settled,
): Sites["answers"][number] {
  const isOwn = (record: OutcomeRecord) => record.site === site;
  const own = withoutTheSite(specification);
  const { comparison, landmarks, level } = own;
  const {
    n,
    persons,
    events,
    landmarks: shares,
    restricted_mean,
  } = curveFamily(everybody(records.filter(isOwn), own), own).curves[0]!;
  const groups = groupsAmong(compared, own, isOwn);
  const { day } = landmarks.find(({ isMain }) => isMain)!;
  return {
    site,
    n,
    persons,
    events,
    landmarks: shares,
    restricted_mean,
    cells: groups.groups.map((group) => cellOf(group, { day, smallest: comparison.smallestGroup, level })),
    effects: ofReturns(effectsOf(pairsOf(groups, own), own)),
  };
}

/** Within one site there is nothing to hold equal of the site. */
function withoutTheSite(specification: Settled): Settled {
  const { comparison } = specification;
  const { adjustFor, strata } = comparison;
  return {
    ...specification,
    comparison: {
      ...comparison,
      adjustFor: adjustFor.filter((field) => field !== "site_id"),
      strata: strata.filter((field) => field !== "site_id"),
    },
  };
}

/** The compared groups among some injuries alone. */
function groupsAmong(
  compared: Grouping,
  specification: Settled,
  isAmong: (record: OutcomeRecord) => boolean,
): Grouping {
  const members = compared.groups.map(({ label, records }) => ({ label, records: records.filter(isAmong) }));
  return groupingOf({ ...compared, members }, specification);
}

const effectsIn = (
  compared: Grouping,
  specification: Settled,
  isAmong: (record: OutcomeRecord) => boolean,
): ExactEffect[] =>
  ofReturns(effectsOf(pairsOf(groupsAmong(compared, specification, isAmong), specification), specification));

/** Effects on the return: distances are told of all sites together. */
const ofReturns = (effects: readonly ExactEffect[]): ExactEffect[] =>
  effects.filter(({ measure }) => measureOf(measure).outcome === "return");

const adjustedOnly = (effects: readonly ExactEffect[]): ExactEffect[] =>
  effects.filter(({ adjusted_for }) => adjusted_for.length > 0);
