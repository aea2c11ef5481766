// What is asked

export type { Clock, EntryRule, InexactDates, Question } from "./question.js";

// The walk of an injury: linked, derived, in columns

export { type OutcomeColumns, toColumns } from "./columns.js";
export { deriveCohort, deriveRecord } from "./derive.js";
export { type KeptCohort, keptCohort } from "./kept-cohort.js";
export { linkTables } from "./link.js";
export { type ReturnState, returnStates, type StateColumns, statesOf } from "./return-states.js";
export { type TimeAfterReturn, timeAfterReturn } from "./time-after-return.js";

// What comes out

export {
  type AfterReturn,
  type Complications,
  type Covariates,
  type DerivedCohort,
  type DistancePair,
  type Episode,
  type Excluded,
  type ExclusionCode,
  exclusionCodes,
  type LevelKept,
  type LinkedInjury,
  type MilestoneTime,
  type OutcomeRecord,
  type Span,
} from "./record.js";

// The steps of `deriveRecord`, each by itself

export { afterReturn } from "./after-return.js";
export { type ClockStart, clockStart } from "./clock.js";
export { complicationAfter, complicationsOf } from "./complications.js";
export { distancePairs } from "./distances.js";
export { type EndDay, firstCompetingEnd } from "./ends.js";
export { entryDay } from "./entry.js";
export type { EarlierTreatments, FirstTreatment } from "./first-treatment.js";
export { lastContactDay } from "./follow-up.js";
export { type MilestoneDays, milestoneDays } from "./milestone-days.js";
export { type Outcome, outcomeOf } from "./outcome.js";
export { singleDay } from "./time.js";
export { earlierTreatments, episodesFrom, firstTreatment } from "./treatment.js";
export { wholeDays } from "./whole-days.js";
