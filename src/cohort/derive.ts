import { dateOfDay, dayNumber } from "../schema/dates.js";
import { clockStart } from "./clock.js";
import { closingOf, withoutLater } from "./close.js";
import { complicationsOf } from "./complications.js";
import { covariatesOf } from "./covariates.js";
import { distancePairs, isBaseline } from "./distances.js";
import { notEligible } from "./eligible.js";
import { isSurgeryUndated } from "./ends.js";
import { entryDay } from "./entry.js";
import type { FirstTreatment } from "./first-treatment.js";
import { outcomeOf } from "./outcome.js";
import type { Question } from "./question.js";
import type { DerivedCohort, Excluded, ExclusionCode, LinkedInjury, OutcomeRecord } from "./record.js";
import { earlierTreatments, episodesFrom, firstTreatment, otherTreatment } from "./treatment.js";

/**
 * One analysable record of an injury, or why it cannot answer the question. In this order:
 *
 * 1. eligible: asked about, or the first criterion that it does not meet (eligible.ts);
 * 2. what lies after the close of the data is put aside;
 * 3. clock: day 0, or `no-first-visit`, `no-treatment-to-start-the-clock`, `treatment-without-start`;
 * 4. entry: the day after which it is at risk, or `no-first-visit`;
 * 5. outcome: milestone and what came after it, competing end or end of follow-up, or `surgery-without-day` where surgery is such an end,
 *    `milestone-before-clock`, `no-follow-up`;
 * 6. a record that ended by its day of entry was never at risk: `entered-after-its-end`;
 * 7. treatment, distances, complications and covariates, in days from the same day 0.
 */
export function deriveRecord(linked: LinkedInjury, asked: Question): OutcomeRecord | Excluded {
  const question = { ...asked, closedOn: closingOf(linked, asked) };
  const { row, values } = linked.injury;
  const without = (excluded: ExclusionCode): Excluded => ({ excluded, injury: values.injury_id, row });

  const outside = notEligible(values, question.who);
  if (outside !== null) return without(outside);
  const known = withoutLater(linked, question.closedOn);
  const clock = clockStart(known, question);
  if (typeof clock === "string") return without(clock);
  const entry = entryDay(known, { entry: question.entry, dayZero: clock.day });
  if (entry === null) return without("no-first-visit");
  if (isSurgeryUndated(known, question)) return without("surgery-without-day");
  const outcome = outcomeOf(known, { question, clock });
  if (typeof outcome === "string") return without(outcome);
  if (outcome.time <= entry) return without("entered-after-its-end");

  const distances = distancePairs(known, clock.day);
  return {
    injury: values.injury_id,
    person: linked.person,
    site: values.site_id,
    row,
    clockStart: dateOfDay(clock.day),
    ...(linked.closedOn === undefined ? {} : { closedOn: linked.closedOn }),
    ...outcome,
    entry,
    grade: values.grade,
    ...treatedBy(firstTreatment(known, question), { known, question, dayZero: clock.day, distances }),
    episodes: episodesFrom(known, clock.day),
    distances,
    complications: complicationsOf(known, { closedOn: question.closedOn, dayZero: clock.day }),
  };
}

/** What of a record follows from its first treatment. */
function treatedBy(
  first: FirstTreatment | null,
  {
    known,
    question,
    dayZero,
    distances,
  }: Pick<OutcomeRecord, "distances"> & {
    readonly known: LinkedInjury;
    readonly question: Question;
    readonly dayZero: number;
  },
): Pick<
  OutcomeRecord,
  | "firstTreatment"
  | "earlier"
  | "otherTreatment"
  | "firstTreatmentDay"
  | "isTreatmentStartAssumed"
  | "covariates"
> {
  const firstTreatmentDay = dayFrom(first, dayZero);
  const before = distances.filter((pair) => isBaseline(pair, firstTreatmentDay));
  return {
    firstTreatment: first?.treatment ?? null,
    earlier: earlierTreatments(known, { first, treatmentsOfInterest: question.treatmentsOfInterest }),
    otherTreatment: first === null ? otherTreatment(known, question) : null,
    firstTreatmentDay,
    isTreatmentStartAssumed: first?.isAssumed ?? false,
    covariates: covariatesOf(known, before),
  };
}

const dayFrom = (first: FirstTreatment | null, dayZero: number): number | null =>
  first === null || first.day === null ? null : first.day - dayZero;

/** Whether day 0 or the end of a record may be another one where another treatment counts as the first. */
const restsOnFirst = ({ clock, competingEnds }: Question): boolean =>
  clock === "treatment_start" || competingEnds.includes("surgery");

/**
 * The record of an injury under a question that differs from that of another record in its treatments of interest only.
 *
 * @param record what the injury gave under the other question; undefined where it gave none
 * @returns that record itself where the first treatment and its day are the same, null where the injury gives none
 */
export function underOtherTreatments(
  record: OutcomeRecord | undefined,
  {
    linked,
    asked,
    other,
  }: { readonly linked: LinkedInjury; readonly asked: Question; readonly other: Question },
): OutcomeRecord | null {
  const question = { ...other, closedOn: closingOf(linked, other) };
  const known = withoutLater(linked, question.closedOn);
  const first = firstTreatment(known, question);
  if (restsOnFirst(other)) {
    const before = firstTreatment(known, asked);
    if (first?.treatment === before?.treatment && first?.day === before?.day) return record ?? null;
    const derived = deriveRecord(linked, other);
    return isRecord(derived) ? derived : null;
  }
  if (record === undefined) return null;
  const dayZero = dayNumber(record.clockStart);
  const isSame =
    (first?.treatment ?? null) === record.firstTreatment &&
    dayFrom(first, dayZero) === record.firstTreatmentDay;
  const { distances } = record;
  return isSame ? record : { ...record, ...treatedBy(first, { known, question, dayZero, distances }) };
}

/**
 * The records of a cohort, in the order of the injuries table, and every injury that gave none.
 *
 * @throws Error where an injury is in neither list: a toolkit that loses an injury may not report
 */
export function deriveCohort(linked: readonly LinkedInjury[], question: Question): DerivedCohort {
  const derived = linked.map((injury) => deriveRecord(injury, question));
  const cohort = { records: derived.filter(isRecord), excluded: derived.filter(isExcluded) };
  assertEveryInjuryOnce(linked, cohort);
  return cohort;
}

const isExcluded = (derived: OutcomeRecord | Excluded): derived is Excluded => "excluded" in derived;
const isRecord = (derived: OutcomeRecord | Excluded): derived is OutcomeRecord => !isExcluded(derived);

function assertEveryInjuryOnce(linked: readonly LinkedInjury[], { records, excluded }: DerivedCohort): void {
  if (linked.length !== records.length + excluded.length) {
    throw new Error(
      `accounting of the analysis does not balance: ${linked.length} injuries, ${records.length} records, ` +
        `${excluded.length} excluded. This is a fault of the toolkit, not of the data; no report is written.`,
    );
  }
}
