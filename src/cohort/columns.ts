import { type CompetingEnd, competingEnds } from "../schema/terms.js";
import type { OutcomeRecord } from "./record.js";

/** Outcome records as typed arrays, one entry a record: what the statistics layer works on. */
export interface OutcomeColumns {
  /** Days from the clock. */
  readonly times: Float64Array;
  /** 1 where the milestone was reached. */
  readonly events: Uint8Array;
  /** 0 censored, 1 milestone, from 2 on the competing ends, as `causeOf` numbers them. */
  readonly causes: Uint8Array;
  /** Day after which the record is at risk, -1 for from the start. */
  readonly entries: Float64Array;
  /** Code of the person, 0-based in order of first appearance. */
  readonly persons: Int32Array;
}

/** The number of a cause: the milestone is 1, the competing ends follow in the order of their terms; 0 is none yet. */
export const causeOf = (end: OutcomeRecord["end"]): number => causes[end];

const causes: Readonly<Record<OutcomeRecord["end"], number>> = {
  censored: 0,
  milestone: 1,
  ...(Object.fromEntries(competingEnds.map((end, i) => [end, 2 + i])) as Record<CompetingEnd, number>),
};

/** Code of each record's person, 0-based in order of first appearance. */
export function personCodes(records: readonly Pick<OutcomeRecord, "person">[]): Int32Array {
  const known = new Map<string, number>();
  const codes = new Int32Array(records.length);
  for (let row = 0; row < codes.length; row++) {
    const { person } = records[row]!;
    const code = known.get(person) ?? known.size;
    if (code === known.size) known.set(person, code);
    codes[row] = code;
  }
  return codes;
}

/** Typed arrays of the records, in their order. */
export const toColumns = (records: readonly OutcomeRecord[]): OutcomeColumns => ({
  ...timesAndEnds(records),
  persons: personCodes(records),
});

/** The same without the persons, whom to tell apart takes longer than all the rest. */
export function timesAndEnds(records: readonly OutcomeRecord[]): Omit<OutcomeColumns, "persons"> {
  const n = records.length;
  const columns = {
    times: new Float64Array(n),
    events: new Uint8Array(n),
    causes: new Uint8Array(n),
    entries: new Float64Array(n),
  };
  // one loop over all: `from` with a function for each column takes several times as long
  for (let row = 0; row < n; row++) {
    const { time, end, entry } = records[row]!;
    columns.times[row] = time;
    columns.events[row] = end === "milestone" ? 1 : 0;
    columns.causes[row] = causes[end];
    columns.entries[row] = entry;
  }
  return columns;
}
