import { checkColumn } from "../shared/arguments.js";
import { indexOfCodes } from "../shared/codes.js";
import type { CompetingEvents } from "./competing-events.js";
import { prepareRiskSets, type RiskSets } from "./risk-sets.js";
import { countsOfTable, countTable, type TimeCounts } from "./time-counts.js";

/** The events of one cause at each time. */
export interface OwnEvents {
  readonly cause: number;
  readonly own: Float64Array;
}

export interface CountsByCause {
  readonly counts: TimeCounts;
  /** Causes ascending. */
  readonly causes: readonly OwnEvents[];
}

/** Counts all causes together and each of them, once by sorted time or day. @param columns causes checked; no entries, no clusters */
export function countsByCause({ times, causes }: CompetingEvents): CountsByCause {
  checkColumn({ name: "times", values: times }, "not negative");
  const { codes, index } = indexOfCodes(causes);
  const kinds = codes.length;
  const table = countTable(times, { kindOf: index, kinds });
  const firstEvent = codes[0] === 0 ? 1 : 0;
  const own = codes.slice(firstEvent).map((cause, i): OwnEvents => {
    const events = new Float64Array(table.times.length);
    for (let time = 0; time < events.length; time++)
      events[time] = table.counts[time * kinds + firstEvent + i]!;
    return { cause, own: events };
  });
  return { counts: countsOfTable(table, { kinds, firstEvent }), causes: own };
}

/** The same where it matters which row stands where: for late entries and clusters. */
export function countsByCauseAndRow({
  causes: code,
  ...rest
}: CompetingEvents): CountsByCause & { readonly counts: RiskSets } {
  const events = new Uint8Array(code.length);
  for (let row = 0; row < code.length; row++) events[row] = code[row]! > 0 ? 1 : 0;
  const counts = prepareRiskSets({ ...rest, events });
  const { codes, index } = indexOfCodes(code);
  const own = codes.map((cause): OwnEvents => ({ cause, own: new Float64Array(counts.times.length) }));
  for (let row = 0; row < index.length; row++) own[index[row]!]!.own[counts.rowTime[row]!]!++;
  return { counts, causes: own.filter(({ cause }) => cause > 0) };
}
