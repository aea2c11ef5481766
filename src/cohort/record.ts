import type { TypedRow } from "../schema/cells.js";
import type { DerivedNumber, GroupField, NumberField } from "../schema/covariates.js";
import type { IsoDate } from "../schema/dates.js";
import type { ImagingRow } from "../schema/imaging.js";
import type { InjuryRow } from "../schema/injuries.js";
import type { SiteRow } from "../schema/sites.js";
import type {
  CompetingEnd,
  Complication,
  Grade,
  Position,
  Precision,
  Pulley,
  RecordedTreatment,
} from "../schema/terms.js";
import type { TreatmentRow } from "../schema/treatments.js";
import type { VisitRow } from "../schema/visits.js";
import type { EarlierTreatments, FirstTreatment } from "./first-treatment.js";

/** An injury with everything that is linked to it, each list in order of date and then of row. */
export interface LinkedInjury {
  readonly injury: TypedRow<InjuryRow>;
  /** The person, by a name that no other person has (`personKey`). */
  readonly person: string;
  readonly site: SiteRow | null;
  readonly treatments: readonly TypedRow<TreatmentRow>[];
  readonly imaging: readonly TypedRow<ImagingRow>[];
  readonly visits: readonly TypedRow<VisitRow>[];
  /** Where several sites were joined: when the data of its site were closed, null where that is not known. */
  readonly closedOn?: IsoDate | null;
}

/** When the milestone was reached, in whole days from the clock: in (left, right]. */
export interface MilestoneTime {
  /** Last day known to be before the milestone. */
  readonly left: number;
  /** First day known to be at or after it; null while it was not reached. */
  readonly right: number | null;
  /** What the interval rests on: a date of that precision, two visits, or nothing yet. */
  readonly known: Precision | "visits" | "not_reached";
}

/** Days from the clock between which a record came to its end: in (left, right]. A day that is known is a span of one day. */
export interface Span {
  /** Last day known to be before the end; the last on which the state was known where none was seen. -1 for none. */
  readonly left: number;
  /** First day known to be at or after it; null for a record without an end. */
  readonly right: number | null;
}

/** One episode of treatment in whole days from the clock; `to` is null while it goes on. */
export interface Episode {
  readonly treatment: RecordedTreatment;
  readonly kind: string | null;
  readonly from: number;
  readonly to: number | null;
}

/** First and last reading of one distance of the injured finger, days from the clock. */
export interface DistancePair {
  readonly pulley: Pulley;
  readonly position: Position;
  readonly baselineMm: number;
  readonly baselineDay: number;
  /** Null where there was one reading only. */
  readonly followUpMm: number | null;
  readonly followUpDay: number | null;
}

/** Climbing level at the last contact beside that before the injury, both on one scale. */
export type LevelKept = "below" | "same" | "above";

/**
 * What came after the milestone, in whole days from the clock and by the close of the data; null where it was not recorded. No day lies
 * before the milestone's.
 */
export interface AfterReturn {
  /** New rupture of the same finger. */
  readonly newRupture: number | null;
  /** First operation. */
  readonly surgery: number | null;
  /** Giving up climbing and death, where the question names them as ends. */
  readonly gaveUp: number | null;
  readonly died: number | null;
  /** Last day on which the state was known. */
  readonly followedUntil: number;
  readonly level: LevelKept | null;
}

/** Complications found at the visits. */
export interface Complications {
  /** Each kind with the first day on which it was found, from the clock, in order of day; negative before day 0. */
  readonly found: readonly { readonly complication: Complication; readonly day: number }[];
  /** Day of the last visit that says anything of complications, none included. */
  readonly lastAsked: number;
}

/** One analysable injury. */
export interface OutcomeRecord {
  readonly injury: string;
  /** A name that no other person has (`personKey`): site and id, or the id alone where sites share their ids. */
  readonly person: string;
  readonly site: string | null;
  readonly row: number;
  readonly clockStart: IsoDate;
  /** Where several sites were joined: when the data of its site were closed, null where that is not known. */
  readonly closedOn?: IsoDate | null;
  readonly milestone: MilestoneTime;
  /** Day after which the record is at risk; -1 when it is at risk from day 0 on. */
  readonly entry: number;
  /** Day of the milestone under the rule for inexact dates, of the competing end, or of the last contact. */
  readonly time: number;
  readonly end: "milestone" | CompetingEnd | "censored";
  /** When that end came, as exactly as it is known. */
  readonly span: Span;
  /** Null where the record did not end by the milestone. */
  readonly after: AfterReturn | null;
  /**
   * The milestone is known only as an interval and a new rupture lies within it: which came first is not recorded. The day that stands in for
   * the milestone decides.
   */
  readonly ruptureWithinReturn: boolean;
  /** Null where no visit says anything of complications. */
  readonly complications: Complications | null;
  readonly grade: Grade;
  /**
   * First treatment of interest; `several` when two began on the same day, `order_not_known` where a missing start would tell; null when there
   * was none.
   */
  readonly firstTreatment: FirstTreatment["treatment"] | null;
  /** What began before the first treatment of interest. */
  readonly earlier: EarlierTreatments;
  /** Where there was none of interest: the first of the other treatments, by the same rule. */
  readonly otherTreatment: FirstTreatment["treatment"] | null;
  /** Null where there was none of interest, or its start was not recorded. */
  readonly firstTreatmentDay: number | null;
  /** Whether that day is the injury's, taken because the start was not recorded. */
  readonly isTreatmentStartAssumed: boolean;
  readonly episodes: readonly Episode[];
  readonly distances: readonly DistancePair[];
  /** Values a study may compare by or adjust for; null where not recorded. */
  readonly covariates: Covariates;
}

/**
 * The fields that say so of themselves, and what is derived: days from the injury to the first visit, first loaded
 * distance of the first injured pulley in mm.
 */
export type Covariates = Readonly<Record<GroupField, string | null>> &
  Readonly<Record<NumberField | DerivedNumber, number | null>>;

/** Whether a record came to an end after which the milestone can no longer be seen. */
export const isCompeting = (end: OutcomeRecord["end"]): end is CompetingEnd =>
  end !== "milestone" && end !== "censored";

/** Why an injury that was read cannot answer the question. */
export const exclusionCodes = [
  "no-first-visit",
  "no-treatment-to-start-the-clock",
  "treatment-without-start",
  "surgery-without-day",
  "milestone-before-clock",
  "no-follow-up",
  "site-not-asked",
  "grade-not-asked",
  "grade-not-known",
  "pulley-not-asked",
  "extent-not-asked",
  "extent-not-known",
  "finger-not-asked",
  "age-not-asked",
  "age-not-known",
  "first-visit-too-late",
  "first-visit-not-known",
  "entered-after-its-end",
] as const;
export type ExclusionCode = (typeof exclusionCodes)[number];

export interface Excluded {
  readonly excluded: ExclusionCode;
  readonly injury: string;
  readonly row: number;
}

/** Records in the order of the injuries table; every linked injury is in one list or the other. */
export interface DerivedCohort {
  readonly records: readonly OutcomeRecord[];
  readonly excluded: readonly Excluded[];
}
