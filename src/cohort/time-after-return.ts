import { personCodes } from "./columns.js";
import type { OutcomeRecord } from "./record.js";

/** Records that returned, one entry each: events after the return and the days in which they could have come. */
export interface TimeAfterReturn {
  /** Place of the record among those passed. */
  readonly records: Int32Array;
  /** 1 where the finger ruptured again. */
  readonly newRuptures: Uint8Array;
  /** Days from the return to the new rupture, or to the end of follow-up, giving up or death. */
  readonly daysToRupture: Float64Array;
  /** 1 where the finger was operated on after the return, whether or not it had ruptured again. */
  readonly surgeries: Uint8Array;
  /** Days from the return to that operation, or to the end of follow-up, giving up or death. */
  readonly daysToSurgery: Float64Array;
  /** Code of the person. */
  readonly clusters: Int32Array;
}

/**
 * What rates after the return are made of. A return on the last day of follow-up has no days in which anything could have come: it is there
 * with 0.
 *
 * @param persons code of each record's person, where it is known
 */
export function timeAfterReturn(
  records: readonly OutcomeRecord[],
  persons: Int32Array = personCodes(records),
): TimeAfterReturn {
  const returned = records.flatMap(({ after, time }, record) =>
    after === null ? [] : [{ after, time, record }],
  );
  const until = (event: number | null, { after, time }: (typeof returned)[number]): number => {
    const { gaveUp, died, followedUntil: last } = after;
    return Math.min(event ?? last, gaveUp ?? last, died ?? last, last) - time;
  };
  const isFirst = (event: number | null, one: (typeof returned)[number]): number =>
    event !== null && event - one.time <= until(event, one) ? 1 : 0;
  return {
    records: Int32Array.from(returned, ({ record }) => record),
    newRuptures: Uint8Array.from(returned, (one) => isFirst(one.after.newRupture, one)),
    daysToRupture: Float64Array.from(returned, (one) => until(one.after.newRupture, one)),
    surgeries: Uint8Array.from(returned, (one) => isFirst(one.after.surgery, one)),
    daysToSurgery: Float64Array.from(returned, (one) => until(one.after.surgery, one)),
    clusters: Int32Array.from(returned, ({ record }) => persons[record]!),
  };
}
