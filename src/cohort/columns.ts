import type { OutcomeRecord } from "./record.js";

/** Outcome records as typed arrays, one entry a record: what the statistics layer works on. */
export interface OutcomeColumns {
  /** Days from the clock. */
  readonly times: Float64Array;
  /** 1 where the milestone was reached. */
  readonly events: Uint8Array;
  /** 0 censored, 1 milestone, 2 a competing end. */
  readonly causes: Uint8Array;
  /** Day after which the record is at risk, -1 for from the start. */
  readonly entries: Float64Array;
  /** Code of the person, 0-based in order of first appearance. */
  readonly persons: Int32Array;
}

/** Typed arrays of the records, in their order. */
export function toColumns(records: readonly OutcomeRecord[]): OutcomeColumns {
  const codes = new Map<string, number>();
  for (const { person } of records) if (!codes.has(person)) codes.set(person, codes.size);
  return {
    times: Float64Array.from(records, ({ time }) => time),
    events: Uint8Array.from(records, ({ end }) => (end === "milestone" ? 1 : 0)),
    causes: Uint8Array.from(records, ({ end }) => (end === "milestone" ? 1 : end === "censored" ? 0 : 2)),
    entries: Float64Array.from(records, ({ entry }) => entry),
    persons: Int32Array.from(records, ({ person }) => codes.get(person)!),
  };
}
