// A whole run, from a study file and the files it names to the folder of a report: one for every door

export {
  type BuiltReport,
  buildReport,
  type ReportChoices,
  resultsOf,
  type SmallCells,
} from "./build-report.js";
export { type Fingerprint, fingerprintOf } from "./fingerprint.js";
export type { Listener, Machine } from "./machine.js";
export {
  type FolderKind,
  folderFormats,
  type Listing,
  listedFiles,
  listingOf,
  type Manifest,
  manifestFile,
  manifestOfEngine,
  manifestSchema,
  type OutputFile,
} from "./manifest.js";
export { notUtf8, openStudy, type StudyInput } from "./open-study.js";
export { plainStudyText } from "./plain-study.js";
export { RunError } from "./run-error.js";
export { filesOf, type ShownNames, withShownNames } from "./study-files.js";
export type { NamedFile, StudyFolder } from "./study-folder.js";
