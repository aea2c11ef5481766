import { dayNumber, type IsoDate } from "../schema/dates.js";
import { type Milestone, milestones, type Precision } from "../schema/terms.js";
import type { LinkedInjury } from "./record.js";

/** The columns of each milestone: named once, since they are asked for several times an injury. */
const columns = Object.fromEntries(milestones.map((milestone) => [milestone, columnsOf(milestone)])) as {
  readonly [Of in Milestone]: ReturnType<typeof columnsOf<Of>>;
};

function columnsOf<Of extends Milestone>(milestone: Of) {
  return {
    date: `${milestone}_date`,
    precision: `${milestone}_precision`,
    notBefore: `${milestone}_not_before`,
    notAfter: `${milestone}_not_after`,
  } as const;
}

/** The columns with the dates of the milestones. */
export const milestoneDates = milestones.map((milestone) => columns[milestone].date);

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
  const column = columns[milestone];
  const notBefore = dayOf(values[column.notBefore]);
  const notAfter = dayOf(values[column.notAfter]);
  const precision = values[column.precision];
  const isLater = precision === "later";
  const insideOut = notBefore !== null && notAfter !== null && notBefore >= notAfter;
  const [no, yes]: [number[], number[]] = [[], []];
  for (const { values: visit } of visits) {
    const answer = visit[milestone];
    if (answer === "no") no.push(dayNumber(visit.date));
    else if (answer === "yes") yes.push(dayNumber(visit.date));
  }
  return {
    date: values[column.date],
    precision: isLater ? null : precision,
    isOpen: isLater,
    notBefore: insideOut ? null : notBefore,
    notAfter: insideOut ? null : notAfter,
    no,
    yes,
  };
}

const dayOf = (date: IsoDate | null) => (date === null ? null : dayNumber(date));
