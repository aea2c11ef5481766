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
