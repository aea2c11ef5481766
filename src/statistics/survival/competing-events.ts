import { checkColumn, checkSameLength } from "../shared/arguments.js";
import type { NamesOf } from "../shared/options.js";

/** One row a record: cause 0 where follow-up ended without any event, else 1, 2, ... for the event that came first. */
export interface CompetingEvents {
  readonly times: ArrayLike<number>;
  readonly causes: ArrayLike<number>;
  readonly entries?: ArrayLike<number>;
  /** Whole numbers; rows with the same number belong together (fingers of one person). */
  readonly clusters?: ArrayLike<number>;
}

export const competingEventsNames: NamesOf<CompetingEvents> = {
  times: true,
  causes: true,
  entries: true,
  clusters: true,
};

/** @throws ArgumentError naming `causes` and the first index at fault; the other columns are checked where they are sorted */
export function checkCauses(columns: CompetingEvents): void {
  const causes = { name: "causes", values: columns.causes };
  checkSameLength(causes, { name: "times", values: columns.times });
  checkColumn(causes, "count");
}
