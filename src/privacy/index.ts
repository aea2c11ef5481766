// A copy that may leave the site, and what it discloses

export type { ColumnDisclosure, Disclosure } from "./disclosure.js";
export { fieldLabel } from "./quasi-fields.js";
export {
  closingWindows,
  type DatesLeave,
  defaultSettings,
  type RareCombinations,
  type ShareSettings,
  shiftRanges,
} from "./settings.js";
export { type CopiedTable, type SharedCohort, shareCohort } from "./share-cohort.js";

// The key

export { keyBytes, keyText, readKeyText, type SecretKey } from "./secret-key.js";

// Its parts: names, calendars, bands, rules of columns

export { banded, bandInWords } from "./bands.js";
export { type Calendars, calendarsOf, dayZero } from "./calendars.js";
export { type ColumnRule, ruleOf } from "./column-rules.js";
export { type DisclosedTables, disclosedTables } from "./disclosed-tables.js";
export { type KeyedNames, keyedNames } from "./keyed-names.js";
export { type RecordEnd, type RecordEnds, recordEndsOf } from "./record-ends.js";
export { type Timeline, timelinesOf } from "./timelines.js";

// Rare combinations

export {
  type ClassSizes,
  type Combination,
  classSizes,
  type EquivalenceClass,
  equivalenceClasses,
  rareRows,
} from "./classes.js";
export { type Rung, rungsOf } from "./ladder.js";
export { cellsToLeaveOut, type LeftOut, type SuppressibleField } from "./suppress.js";
