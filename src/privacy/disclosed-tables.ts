import type { CohortTables } from "../schema/cohort-tables.js";
import { asKnownOn } from "./as-known-on.js";
import { type Calendars, calendarsOf } from "./calendars.js";
import { withContactsToTheWeek } from "./contacts-to-the-week.js";
import type { KeyedNames } from "./keyed-names.js";
import { withMonthsAsSpans } from "./month-spans.js";
import { type RecordEnds, recordEndsOf } from "./record-ends.js";
import type { ShareSettings } from "./settings.js";
import { timelinesOf } from "./timelines.js";

/** What of the tables is told in the copy, still on the real calendar, and how it is moved. */
export interface DisclosedTables {
  readonly tables: CohortTables;
  readonly ends: RecordEnds;
  readonly calendars: Calendars;
}

/**
 * The dates of a copy, step by step: each record up to a last day of its own, months as spans, contacts near the close to
 * the week, then the move of each person's calendar.
 */
export function disclosedTables(
  tables: CohortTables,
  { settings, names }: { readonly settings: ShareSettings; readonly names: KeyedNames },
): DisclosedTables {
  const timelines = timelinesOf(tables);
  const ends = recordEndsOf(timelines, { settings, names });
  if (settings.dates === "as-they-are") {
    return { tables, ends, calendars: calendarsOf(timelines, { settings, names, ends }) };
  }
  const told = withContactsToTheWeek(withMonthsAsSpans(asKnownOn(tables, ends), names), { ends, names });
  return { tables: told, ends, calendars: calendarsOf(timelinesOf(told), { settings, names, ends }) };
}
