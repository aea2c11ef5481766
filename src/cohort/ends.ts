import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { CompetingEnd } from "../schema/terms.js";
import { closeDay } from "./close.js";
import { lastContactDay } from "./follow-up.js";
import { milestoneFields } from "./milestone-fields.js";
import type { Question } from "./question.js";
import type { LinkedInjury } from "./record.js";
import { firstTreatment } from "./treatment.js";

/** An end that competes with the milestone, and its day number (1970-01-01 = 0). */
export interface EndDay {
  readonly end: CompetingEnd;
  readonly day: number;
  /** Last day known to be before it: the day before, where it is dated; -Infinity where no day is known. */
  readonly knownBefore: number;
}

/** Of ends on one day the cause stands before its consequence. */
const precedence = ["died", "new_rupture", "surgery", "gave_up"] as const satisfies readonly CompetingEnd[];

/**
 * The earliest of the competing ends that the question names, if there was one by the close of the data.
 *
 * - gave_up: gave_up_date; with that blank and end_status gave_up, the last contact.
 * - new_rupture: new_rupture_date.
 * - died: the last contact, with end_status died.
 * - surgery: the first surgery that began after a first treatment of interest which was not surgery.
 *
 * An end that the question does not name ends nothing: follow-up goes on to the last contact, and a milestone
 * seen after it counts.
 */
export function firstCompetingEnd(linked: LinkedInjury, question: Question): EndDay | null {
  const close = closeDay(question.closedOn);
  let first: EndDay | null = null;
  for (const end of precedence) {
    if (!question.competingEnds.includes(end)) continue;
    const day = dayOfEnd[end](linked, question);
    if (day !== null && day <= close && (first === null || day < first.day)) {
      first = { end, day, knownBefore: knownBefore(linked, { end, day, question }) };
    }
  }
  return first;
}

/**
 * Giving up without a date of its own is known from the last contact alone: it came after the last day on which the milestone was said to be
 * not reached yet. Every other end is dated.
 */
function knownBefore(
  linked: LinkedInjury,
  { end, day, question }: Omit<EndDay, "knownBefore"> & { readonly question: Question },
): number {
  if (end !== "gave_up" || linked.injury.values.gave_up_date !== null) return day - 1;
  const { notBefore, no } = milestoneFields(linked, question.milestone);
  const notYet = [notBefore, ...no].filter((one) => one !== null && one < day) as number[];
  return Math.max(Number.NEGATIVE_INFINITY, ...notYet);
}

/** Day number of each end, whether or not the question names it; null where it is not recorded. */
export const dayOfEnd: Record<CompetingEnd, (linked: LinkedInjury, question: Question) => number | null> = {
  gave_up: (linked, { milestone }) =>
    dayOf(linked.injury.values.gave_up_date) ??
    (linked.injury.values.end_status === "gave_up" ? lastContactDay(linked, milestone) : null),
  new_rupture: (linked) => dayOf(linked.injury.values.new_rupture_date),
  died: (linked, { milestone }) =>
    linked.injury.values.end_status === "died" ? lastContactDay(linked, milestone) : null,
  surgery: conversionDay,
};

const dayOf = (date: IsoDate | null) => (date === null ? null : dayNumber(date));

function conversionDay(linked: LinkedInjury, question: Question): number | null {
  const first = firstTreatment(linked, question);
  if (first === null || first.treatment === "surgery") return null;
  const operations = daysOfSurgery(linked);
  const { day: begun } = first;
  if (begun === null) return operations[0] ?? null;
  if (operations.includes(begun)) return null;
  return operations.find((day) => day > begun) ?? null;
}

/** Day numbers of the operations whose day is known, in their order. */
export const daysOfSurgery = ({ treatments }: LinkedInjury): readonly number[] =>
  treatments.flatMap(({ values: { treatment, start_date } }) =>
    treatment === "surgery" && start_date !== null ? [dayNumber(start_date)] : [],
  );

/**
 * Whether the question counts surgery as an end and there was an operation of which the day, or whether it came first, is
 * not known; or a treatment beside another which may have been one.
 */
export function isSurgeryUndated(linked: LinkedInjury, question: Question): boolean {
  if (!question.competingEnds.includes("surgery")) return false;
  const operations = linked.treatments.filter(({ values }) => values.treatment === "surgery");
  const mayBeOne =
    linked.treatments.length > 1 && linked.treatments.some(({ values }) => values.treatment === "not_stated");
  if (operations.length === 0 && !mayBeOne) return false;
  const first = firstTreatment(linked, question)?.treatment;
  if (first === "surgery") return false;
  return (
    mayBeOne || first === "order_not_known" || operations.some(({ values }) => values.start_date === null)
  );
}
