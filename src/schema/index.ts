// Tables, fields, terms

export { counted } from "./counted.js";
export {
  type Adjustable,
  type AdjustableNumber,
  adjustable,
  type Comparable,
  comparable,
  type GroupField,
  groupFields,
  type NumberField,
  numberFields,
} from "./covariates.js";
export { type Field, type FieldDescription, type FieldKind, fieldsOf } from "./field.js";
export type { ImagingRow } from "./imaging.js";
export type { InjuryRow } from "./injuries.js";
export { labelOf } from "./labels.js";
export { levelRank } from "./levels.js";
export { type PersonIds, personIdRules, personKey } from "./person-key.js";
export type { Sharing } from "./said-of-field.js";
export type { SingleSheetRow } from "./single-sheet.js";
export type { SiteRow } from "./sites.js";
export { type LinkedTableName, linkedTableNames, type TableName, tableNames } from "./table-names.js";
export { type Table, tables } from "./tables.js";
export type { CompetingEnd, Grade, Milestone, Position, Precision, Pulley, Treatment } from "./terms.js";
export * as terms from "./terms.js";
export type { TreatmentRow } from "./treatments.js";
export { unitInWords } from "./unit-words.js";
export type { VisitRow } from "./visits.js";

// Rows on their way in, and the account of them

export {
  type Accounted,
  type AnswerAccount,
  assertAccountBalances,
  assertAnswersBalance,
  type ColumnNotUsed,
  type FoldedRows,
  type RowAccount,
} from "./accounting.js";
export { type AnswerKind, type AnswerRow, answerKinds, answersTable } from "./answers.js";
export { cellReaderOf } from "./cells/read-cell.js";
export type { DateOrder } from "./cells/read-date.js";
export type { Reading } from "./cells/reading.js";
export type { CellRow, TypedRow } from "./cells.js";
export type { CohortTables, ReadCohort } from "./cohort-tables.js";
export { type SortedRows, typeRows } from "./type-rows.js";

// Rules about one row

export { checkRow, type RowRule, type RuleContext } from "./rules/row-rule.js";
export { rowRules } from "./rules/row-rules.js";

// Queries, and how they are said

export { type DataQuery, type QueryCode, queryCodes, type Severity } from "./data-query.js";
export { groupQueries, groupText, type QueryGroup } from "./group-queries.js";
export { type Keep, type QueryList, queryCount, queryList } from "./query-list.js";
export { StopError } from "./stop-error.js";
export { type QueryInWords, queryText, sayQuery } from "./words.js";

// Files of settings

export { SettingsError, type SettingsProblem } from "./settings/settings-error.js";

// What in a text or a pseudonym may tell who somebody is

export type { IdentifyingKind } from "./identifying/patterns.js";
export { type SpeakingPseudonym, scanPseudonym } from "./identifying/scan-pseudonym.js";
export { type IdentifyingPlace, scanText } from "./identifying/scan-text.js";

// Days and text

export { type DateEvidence, dateEvidence } from "./cells/dates/date-evidence.js";
export { periodAfter } from "./cells/dates/elapsed-time.js";
export { writtenDateReader } from "./cells/dates/read-written-date.js";
export type { DateForms } from "./cells/dates/year-text.js";
export { type Period, periodOf } from "./cells/period.js";
export { type CsvCell, csvText } from "./csv-text.js";
export { dateOfDay, dayNumber, daysBetween, type IsoDate } from "./dates.js";
export { holdsHidden, oneLine, visibleText } from "./hidden-characters.js";
export { jsonText } from "./json-text.js";
export { yamlText } from "./settings/yaml-text.js";
export { tableText } from "./table-text.js";

// The tables for other programs: schemas/ and the data dictionary

export { dataDictionary } from "./data-dictionary.js";
export { type JsonObject, jsonSchemaOf } from "./json-schema.js";
export { tableSchemaOf } from "./table-schema.js";
