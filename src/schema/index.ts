// Tables, fields, terms

export { type Accounted, assertAccountBalances, type RowAccount } from "./accounting.js";
// Rows on their way in, and the account of them
export type { CellRow, TypedRow } from "./cells.js";
export type { CohortTables, ReadCohort } from "./cohort-tables.js";
export { type CsvCell, csvText } from "./csv-text.js";
export { type DataQuery, type QueryCode, queryCodes, type Severity } from "./data-query.js";
// Days and text
export { dateOfDay, dayNumber, daysBetween, type IsoDate } from "./dates.js";
export { type Field, type FieldDescription, type FieldKind, fieldsOf } from "./field.js";
export type { ImagingRow } from "./imaging.js";
export type { InjuryRow } from "./injuries.js";
export { labelOf } from "./labels.js";
export type { SingleSheetRow } from "./single-sheet.js";
export type { SiteRow } from "./sites.js";
export { type LinkedTableName, type Table, type TableName, tables } from "./tables.js";
export type { CompetingEnd, Grade, Milestone, Position, Precision, Pulley, Treatment } from "./terms.js";
export * as terms from "./terms.js";
export type { TreatmentRow } from "./treatments.js";
export type { VisitRow } from "./visits.js";
