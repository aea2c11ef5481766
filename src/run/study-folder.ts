import type { CohortForSite, SourceFile } from "../ingest/index.js";
import type { ReadCohort } from "../schema/index.js";
import type { Plan } from "../study/index.js";
import type { Fingerprint } from "./fingerprint.js";
import type { ShownNames } from "./study-files.js";

/** The tables of a study as read, and the fingerprints of every file that was opened for them. */
export interface OpenedTables {
  readonly read: ReadCohort;
  /** Every query for the site to answer; only where it was asked for. */
  readonly forSite: CohortForSite | null;
  readonly inputs: readonly Fingerprint[];
}

/** What to call a file in a message, and where it is named. */
export interface NamedFile {
  readonly what: string;
  readonly by: string;
}

/** The files of a study, wherever they lie. */
export interface StudyFolder {
  /** Name of the study file. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** The name of a file in what is written, which says nothing of where it lies. */
  readonly shownNames: (plan: Plan) => ShownNames;
  /** @throws InputError, or an error of the door, where there is no such file */
  readonly open: (file: string, named: NamedFile) => Promise<Uint8Array>;
  /** Told of the tables before they are read, for a door that has to make room; may throw. */
  readonly opened?: (tables: readonly SourceFile[]) => void;
}
