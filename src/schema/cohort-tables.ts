import type { Accounted, AnswerAccount } from "./accounting.js";
import type { TypedRow } from "./cells.js";
import type { IsoDate } from "./dates.js";
import type { ImagingRow } from "./imaging.js";
import type { InjuryRow } from "./injuries.js";
import type { PersonIds } from "./person-key.js";
import type { SiteRow } from "./sites.js";
import type { TreatmentRow } from "./treatments.js";
import type { VisitRow } from "./visits.js";

/** The linked tables as typed rows: what ingest hands to the cohort layer. */
export interface CohortTables {
  readonly injuries: readonly TypedRow<InjuryRow>[];
  /** Also those whose rows are set aside, as far as they can be read: an injury stays one that was treated. */
  readonly treatments: readonly TypedRow<TreatmentRow>[];
  readonly imaging: readonly TypedRow<ImagingRow>[];
  readonly visits: readonly TypedRow<VisitRow>[];
  readonly sites: readonly TypedRow<SiteRow>[];
  /** How far a person id names one person: within its site, or at all sites. */
  readonly personIds: PersonIds;
  /** Where several sites were joined: the day on which the data of each were closed, null where it is not known. */
  readonly closings?: ReadonlyMap<string | null, IsoDate | null>;
}

/** Tables that were read, with the account of every row and every query. */
export interface ReadCohort extends Accounted {
  readonly tables: CohortTables;
  /** What became of the site's answers; null or left out where no file of answers was given. */
  readonly answers?: AnswerAccount | null;
}
