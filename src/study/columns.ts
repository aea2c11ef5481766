import { personCodes, timesAndEnds } from "../cohort/columns.js";
import type { OutcomeRecord } from "../cohort/record.js";
import type { CompetingEvents, TimeToEvent } from "../statistics/index.js";
import type { ShareBack } from "./plan.js";

/** Records as columns of the statistics layer, which takes no column that a method has no use for. */
export interface Columns {
  /** Times and events; entries only where somebody enters late, clusters only where rows are not independent. */
  readonly timeToEvent: TimeToEvent;
  /** The same with what came first in place of the events, numbered by `causeOf`. */
  readonly competing: CompetingEvents;
  /** Counted where it is asked for: most figures have no use for it. */
  readonly persons: () => number;
  /** Independent units: persons where rows are not independent, else injuries. */
  readonly units: number;
}

/**
 * The columns of some records.
 *
 * @param records in any order; the columns have one entry for each, in the same order
 * @param options clustered: whether somebody has more than one injury among all that are looked at together
 */
export function columnsOf(
  records: readonly OutcomeRecord[],
  { clustered }: { readonly clustered: boolean },
): Columns {
  const { times, events, causes, entries } = timesAndEnds(records);
  const codes = clustered ? personCodes(records) : null;
  const late = records.some(({ entry }) => entry >= 0);
  const common = { times, ...(late ? { entries } : {}), ...(codes === null ? {} : { clusters: codes }) };
  const persons = () =>
    codes === null ? personsAmong(records) : 1 + codes.reduce((highest, code) => Math.max(highest, code), -1);
  return {
    timeToEvent: { ...common, events },
    competing: { ...common, causes },
    persons,
    units: clustered ? persons() : records.length,
  };
}

/**
 * What came first as a share back counts it: beside competing ends, or as if these were ends of follow-up like any other.
 */
export const countedFor = (
  { competing, timeToEvent }: Pick<Columns, "competing" | "timeToEvent">,
  shareBack: ShareBack,
): CompetingEvents =>
  shareBack === "of_everyone" ? competing : { ...competing, causes: timeToEvent.events };

/** The same columns with every row by itself: for counts, which do not depend on whose the rows are. */
export const withoutClusters = ({ clusters: _, ...columns }: TimeToEvent): TimeToEvent => columns;

/** Number of different persons. */
export function personsAmong(records: readonly OutcomeRecord[]): number {
  const persons = new Set<string>();
  for (const { person } of records) persons.add(person);
  return persons.size;
}
