import { daysBetween } from "../schema/dates.js";
import type { InjuryRow } from "../schema/injuries.js";
import * as terms from "../schema/terms.js";
import type { ExclusionCode } from "./record.js";

/** Which injuries a study asks about; null where a criterion is not set. */
export interface Eligibility {
  readonly sites: readonly string[] | null;
  readonly grades: readonly terms.Grade[] | null;
  /** Pulleys of which the injury involves at least one. */
  readonly pulleys: readonly terms.Pulley[] | null;
  /** How far the most severely injured pulley is torn. */
  readonly extents: readonly terms.Extent[] | null;
  readonly fingers: readonly terms.Finger[] | null;
  /** Completed years at the injury, both ends included. */
  readonly age: { readonly from: number; readonly to: number } | null;
  /** Most days from the injury to the first visit. */
  readonly firstVisitWithinDays: number | null;
}

/** Every injury. */
export const everyInjury: Eligibility = {
  sites: null,
  grades: null,
  pulleys: null,
  extents: null,
  fingers: null,
  age: null,
  firstVisitWithinDays: null,
};

/**
 * Why a study does not ask about an injury, by the first criterion it does not meet; null where it does. An injury of which a
 * criterion is not recorded cannot be said to meet it.
 */
export function notEligible(injury: InjuryRow, asked: Eligibility): ExclusionCode | null {
  for (const criterion of criteria) {
    const code = criterion(injury, asked);
    if (code !== null) return code;
  }
  return null;
}

type Criterion = (injury: InjuryRow, asked: Eligibility) => ExclusionCode | null;

const isAmong = <T>(value: T, wanted: readonly T[] | null): boolean =>
  wanted === null || wanted.includes(value);

/** An injury without a site is asked about only where all sites are. */
const bySite: Criterion = ({ site_id }, { sites }) =>
  sites === null || (site_id !== null && sites.includes(site_id)) ? null : "site-not-asked";

const byGrade: Criterion = ({ grade }, { grades }) => {
  if (isAmong(grade, grades)) return null;
  return grade === "unknown" ? "grade-not-known" : "grade-not-asked";
};

const byPulley: Criterion = ({ pulleys: injured }, { pulleys }) =>
  pulleys === null || injured.some((pulley) => pulleys.includes(pulley)) ? null : "pulley-not-asked";

const byExtent: Criterion = ({ pulley_extents }, { extents }) => {
  if (extents === null) return null;
  const worst = terms.extents.findLast((extent) => pulley_extents?.includes(extent));
  if (worst === undefined) return "extent-not-known";
  return extents.includes(worst) ? null : "extent-not-asked";
};

const byFinger: Criterion = ({ finger }, { fingers }) =>
  isAmong(finger, fingers) ? null : "finger-not-asked";

const byAge: Criterion = ({ age_at_injury: age }, { age: wanted }) => {
  if (wanted === null) return null;
  if (age === null) return "age-not-known";
  return age >= wanted.from && age <= wanted.to ? null : "age-not-asked";
};

const byFirstVisit: Criterion = ({ injury_date, first_visit_date }, { firstVisitWithinDays: most }) => {
  if (most === null) return null;
  if (first_visit_date === null) return "first-visit-not-known";
  return daysBetween(injury_date, first_visit_date) <= most ? null : "first-visit-too-late";
};

const criteria: readonly Criterion[] = [bySite, byGrade, byPulley, byExtent, byFinger, byAge, byFirstVisit];
