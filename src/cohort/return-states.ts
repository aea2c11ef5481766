import { personCodes } from "./columns.js";
import type { AfterReturn, OutcomeRecord } from "./record.js";

/**
 * Where an injury stands, by number:
 *
 * - 0 `not_yet`: not yet back, and followed
 * - 1 `back`: the milestone was reached, and nothing below has happened since
 * - 2 `ruptured_again`: new rupture of the same finger after the return
 * - 3 `ended_before`: a competing end before any return: given up, ruptured again, operated, died, as far as the question names them
 * - 4 `ended_after`: given up or died after the return, where the question names these ends
 *
 * Nobody leaves the last three. `ever back` is the sum of 1, 2 and 4.
 */
export const returnStates = ["not_yet", "back", "ruptured_again", "ended_before", "ended_after"] as const;
export type ReturnState = (typeof returnStates)[number];

/** Numbers of the states that nobody leaves. */
export const finalStates: readonly number[] = (
  ["ruptured_again", "ended_before", "ended_after"] as const
).map((state) => returnStates.indexOf(state));

const numberOf = Object.fromEntries(returnStates.map((state, number) => [state, number])) as Record<
  ReturnState,
  number
>;

/** Stays of the injuries in the states, one row a stay: what the multi-state curves of the statistics layer take. */
export interface StateColumns {
  /** Place of the record among those passed. */
  readonly subjects: Int32Array;
  /** Days from the clock: the row is at risk on (entry, time]. */
  readonly entries: Float64Array;
  readonly times: Float64Array;
  /** Numbers of the states; the same where follow-up ended. */
  readonly from: Uint8Array;
  readonly to: Uint8Array;
  /** Code of the person. */
  readonly clusters: Int32Array;
}

/** One stay: in a state until a day, and into which one then. */
interface Stay {
  readonly from: ReturnState;
  readonly to: ReturnState;
  readonly until: number;
}

/**
 * The stays of each record, in order. A new rupture or an end on the day of the return itself is a move straight from `not_yet`: a stay of no
 * day is none.
 *
 * @param persons code of each record's person, where it is known
 * @returns one row for each record that did not return or was not followed after it, two for the others
 */
export function statesOf(
  records: readonly OutcomeRecord[],
  persons: Int32Array = personCodes(records),
): StateColumns {
  const stays = records.map(staysOf);
  const n = stays.reduce((sum, own) => sum + own.length, 0);
  const columns = {
    subjects: new Int32Array(n),
    entries: new Float64Array(n),
    times: new Float64Array(n),
    from: new Uint8Array(n),
    to: new Uint8Array(n),
    clusters: new Int32Array(n),
  };
  let row = 0;
  for (let i = 0; i < records.length; i++) {
    let { entry } = records[i]!;
    for (const { from, to, until } of stays[i]!) {
      columns.subjects[row] = i;
      columns.entries[row] = entry;
      columns.times[row] = until;
      columns.from[row] = numberOf[from];
      columns.to[row] = numberOf[to];
      columns.clusters[row] = persons[i]!;
      entry = until;
      row++;
    }
  }
  return columns;
}

function staysOf({ end, time, after }: OutcomeRecord): readonly Stay[] {
  if (after === null) {
    return [{ from: "not_yet", to: end === "censored" ? "not_yet" : "ended_before", until: time }];
  }
  const last = lastStay(after);
  if (last.until > time) return [{ from: "not_yet", to: "back", until: time }, last];
  return [{ from: "not_yet", to: last.to, until: time }];
}

/** Of a rupture and an end on one day the rupture comes first. */
function lastStay({ newRupture, gaveUp, died, followedUntil }: AfterReturn): Stay {
  const ended = Math.min(gaveUp ?? Number.POSITIVE_INFINITY, died ?? Number.POSITIVE_INFINITY);
  if (newRupture !== null && newRupture <= ended)
    return { from: "back", to: "ruptured_again", until: newRupture };
  if (Number.isFinite(ended)) return { from: "back", to: "ended_after", until: ended };
  return { from: "back", to: "back", until: followedUntil };
}
