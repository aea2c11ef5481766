import type { ReadCohort } from "../../schema/cohort-tables.js";
import type { IsoDate } from "../../schema/dates.js";
import type { States } from "./states.js";

/** The tables of one site as they were read, and the name that it has among the others. */
export interface SiteRead {
  readonly site: string;
  readonly read: ReadCohort;
  /** The day on which its data were closed; null where it is not stated. */
  readonly closedOn: IsoDate | null;
  /** Whether its dates are on a calendar of each person's own. */
  readonly ownCalendars: boolean;
  /** What the site states of itself where its own table does not, or only by a keyed name. */
  readonly states?: States | undefined;
}
