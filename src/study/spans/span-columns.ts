import { causeOf } from "../../cohort/columns.js";
import { isCompeting, type OutcomeRecord } from "../../cohort/record.js";
import type { VisitColumns } from "../../statistics/survival/between-visits/index.js";
import type { ShareBack } from "../plan.js";

/** What is known of a record's end, from the day on which it is at risk. */
interface Known {
  readonly left: number;
  /** Null without an end. Equal to `left` where the end is known to the day. */
  readonly right: number | null;
  readonly end: number;
}

/** An end on day 0 has no logarithm: it is counted in the middle of that day. */
const middleOfDayZero = 0.5;

/**
 * When a record's end came: its span from its entry on, or the day where the span is no longer than one.
 *
 * @param options shareBack: what becomes of competing ends; where they are ends of follow-up, a record is known not to be back on that day
 */
export function knownOf(record: OutcomeRecord, { shareBack }: { readonly shareBack: ShareBack }): Known {
  const { span, entry, time, end } = record;
  const from = Math.max(0, entry);
  const cut = isCompeting(end) && shareBack === "if_no_competing_end";
  if (cut) return { left: Math.max(from, time), right: null, end: 0 };
  if (span.right === null) return { left: Math.max(from, span.left), right: null, end: 0 };
  const left = Math.max(span.left, entry);
  const right = Math.max(span.right, left + 1);
  if (right - left > 1) return { left: Math.max(0, left), right, end: causeOf(end) };
  const day = right > 0 ? right : middleOfDayZero;
  return { left: day, right: day, end: causeOf(end) };
}

export interface SpanColumns extends VisitColumns {
  readonly left: Float64Array;
  readonly right: readonly (number | null)[];
  readonly ends: Int32Array;
}

/**
 * Records as columns of the methods for ends known only between two days, in their order: ends numbered by `causeOf`, entries only where
 * somebody enters late.
 */
export function spanColumnsOf(
  records: readonly OutcomeRecord[],
  asked: { readonly shareBack: ShareBack },
): SpanColumns {
  const known = records.map((record) => knownOf(record, asked));
  const late = records.some(({ entry }) => entry > 0);
  return {
    left: Float64Array.from(known, ({ left }) => left),
    right: known.map(({ right }) => right),
    ends: Int32Array.from(known, ({ end }) => end),
    ...(late ? { entries: Float64Array.from(records, ({ entry }) => Math.max(0, entry)) } : {}),
  };
}
