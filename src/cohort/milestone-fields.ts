import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { Milestone, Precision } from "../schema/terms.js";
import type { LinkedInjury } from "./record.js";

/** What the tables say about one milestone, as day numbers (1970-01-01 = 0); null where blank. */
export interface MilestoneFields {
  readonly date: IsoDate | null;
  readonly precision: Precision | null;
  readonly notBefore: number | null;
  readonly notAfter: number | null;
  /** Whether not_before is all that is known: the state after it is not. */
  readonly isOpen: boolean;
  /** Days of the visits that said 'no' and 'yes', ascending; 'unknown' and blank say nothing. */
  readonly no: readonly number[];
  readonly yes: readonly number[];
}

/**
 * Everything recorded about a milestone. Bounds that are inside out (not before lies on or after not after)
 * contradict each other, so that neither is used.
 */
export function milestoneFields({ injury, visits }: LinkedInjury, milestone: Milestone): MilestoneFields {
  const { values } = injury;
  const notBefore = dayOf(values[`${milestone}_not_before`]);
  const notAfter = dayOf(values[`${milestone}_not_after`]);
  const precision = values[`${milestone}_precision`];
  const isLater = precision === "later";
  const insideOut = notBefore !== null && notAfter !== null && notBefore >= notAfter;
  const daysSaying = (answer: "yes" | "no") =>
    visits.filter((visit) => visit.values[milestone] === answer).map((visit) => dayNumber(visit.values.date));
  return {
    date: values[`${milestone}_date`],
    precision: isLater ? null : precision,
    isOpen: isLater,
    notBefore: insideOut ? null : notBefore,
    notAfter: insideOut ? null : notAfter,
    no: daysSaying("no"),
    yes: daysSaying("yes"),
  };
}

const dayOf = (date: IsoDate | null) => (date === null ? null : dayNumber(date));
