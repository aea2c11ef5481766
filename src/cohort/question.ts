import type { IsoDate } from "../schema/dates.js";
import type { CompetingEnd, Milestone, Treatment } from "../schema/terms.js";
import type { Eligibility } from "./eligible.js";

/** Where day 0 lies. Each choice has a bias, which the report names. */
export type Clock = "injury" | "first_visit" | "treatment_start";

/** From when a record counts as at risk: from day 0, or only from the first visit (delayed entry). */
export type EntryRule = "clock" | "first_visit";

/** What stands in for a milestone known only to lie in (left, right]. */
export type InexactDates = "midpoint" | "latest" | "earliest";

/**
 * What becomes of a first treatment without a start: left out of what counts from the treatment on, or taken to start
 * with the injury, so that time before the treatment counts for it.
 */
export type TreatmentWithoutStart = "left_out" | "from_injury";

/** What is asked of each injury: enough to derive its clock, its milestone and its ends. */
export interface Question {
  readonly milestone: Milestone;
  readonly clock: Clock;
  readonly entry: EntryRule;
  readonly inexactDates: InexactDates;
  /** Ends after which the milestone can no longer be seen; `surgery` only for injuries first treated otherwise. */
  readonly competingEnds: readonly CompetingEnd[];
  /** The treatments that count as a first treatment; an earlier treatment that is not among them is background, and counted. */
  readonly treatmentsOfInterest: readonly Treatment[];
  /** What is taken for the start of a first treatment that has none: nothing, or the day of the injury. */
  readonly treatmentWithoutStart: TreatmentWithoutStart;
  /** The injuries asked about. */
  readonly who: Eligibility;
  /** The day on which the data were closed; nothing after it is used. Null when not stated. */
  readonly closedOn: IsoDate | null;
}
