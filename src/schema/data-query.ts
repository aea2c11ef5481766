/** What happens to the row: the run stops, the row is set aside until answered, or it is used and shown. */
export type Severity = "stop" | "set-aside" | "look-at";

/**
 * A query about the data, as plain data: its sentence is made last, by `sayQuery`.
 * A query never changes a value.
 */
export interface DataQuery {
  readonly code: QueryCode;
  readonly severity: Severity;
  readonly file: string;
  /** Row as the spreadsheet shows it: the header is row 1. Null for a query about the whole file. */
  readonly row: number | null;
  readonly column: string | null;
  /** The cell as it stands in the file; null where the query is not about one value. */
  readonly found: string | null;
  /** Further facts the sentence needs, by name. */
  readonly facts: Readonly<Record<string, string | number>>;
  /** The injury concerned, where it is known. */
  readonly injury: string | null;
}

/** About a file as a whole, its header, or the shape of its rows. */
export const fileCodes = [
  "table-missing",
  "table-twice",
  "tables-mixed",
  "file-empty",
  "file-header-only",
  "file-not-text",
  "file-not-utf8",
  "file-too-large",
  "rows-too-many",
  "workbook-other-kind",
  "workbook-encrypted",
  "workbook-damaged",
  "workbook-too-large",
  "workbook-unsafe",
  "sheet-missing",
  "sheet-empty",
  "sheets-not-read",
  "rows-hidden",
  "columns-hidden",
  "cells-joined",
  "wrong-delimiter",
  "unbalanced-quote",
  "row-without-end",
  "header-foreign",
  "header-not-first",
  "column-missing",
  "column-unknown",
  "column-twice",
  "row-too-long",
  "row-too-short",
] as const;
export type FileCode = (typeof fileCodes)[number];

/** About one cell that could not be taken as it stands. */
export const cellCodes = [
  "value-missing",
  "missing-in-words",
  "date-unreadable",
  "time-without-unit",
  "date-day-or-month-first",
  "date-two-digit-year",
  "date-serial",
  "date-month-only",
  "date-with-time",
  "date-impossible",
  "date-year-doubtful",
  "span-inside-out",
  "number-unreadable",
  "number-with-unit",
  "number-with-bound",
  "number-range",
  "number-not-whole",
  "number-out-of-range",
  "term-unknown",
  "finger-by-number",
  "grade-without-letter",
  "grade-range",
  "list-range",
  "text-too-long",
  "identifier-hidden",
  "value-not-accepted",
] as const;
export type CellCode = (typeof cellCodes)[number];

/** About a row against itself. */
export const rowCodes = [
  "extents-not-matching-pulleys",
  "pulley-twice",
  "event-before-injury",
  "event-after-last-contact",
  "date-in-future",
  "milestones-out-of-order",
  "interval-inside-out",
  "later-without-bound",
  "interval-over-26-weeks",
  "episode-inside-out",
  "milestone-after-giving-up",
  "milestone-after-new-rupture",
  "grade-3-without-complete-a2",
  "grade-3-with-second-complete",
  "grade-2-with-complete-a2",
  "grade-1-with-tear",
  "grade-4a-visible-bowstringing",
  "grade-4b-without-bowstringing",
  "thumb-with-grade",
  "minor-pulley-alone",
  "years-climbing-exceed-age",
  "level-not-on-scale",
  "level-below-previous",
  "return-unusually-late",
  "return-unusually-early",
  "first-visit-after-return",
  "age-under-17",
  "worn-more-than-prescribed",
  "injury-date-too-wide",
  "treatment-without-start",
  "start-without-treatment",
  "second-treatment-alone",
  "distance-without-date",
] as const;
export type RowCode = (typeof rowCodes)[number];

/** About rows against each other. */
export const linkCodes = [
  "identifier-twice",
  "injury-twice",
  "row-repeated",
  "visits-differ",
  "row-without-injury",
  "injury-set-aside",
  "site-unknown",
  "site-ids-alike",
  "person-ids-at-several-sites",
  "possible-duplicate",
  "possible-same-person",
  "same-finger-again",
  "person-contradicts-itself",
  "completed-without-milestone",
  "grade-4-needs-several-or-complication",
  "surgery-in-grade-1",
  "surgery-twice",
  "same-treatment-overlaps",
  "loaded-below-rest",
  "loaded-mostly-below-rest",
  "distance-against-grade",
  "bowstringing-against-distance",
  "sides-equal",
  "imaging-pulley-not-injured",
  "distance-unit-doubtful",
  "score-scale-doubtful",
  "visit-contradicts-milestone",
  "text-may-identify",
  "pseudonym-may-identify",
  "person-ids-alike",
  "near-duplicate-injury",
  "near-duplicates-not-all-compared",
  "reading-twice",
  "distance-tenfold",
] as const;
export type LinkCode = (typeof linkCodes)[number];

/** About sides and sequences that do not fit each other. */
export const historyCodes = [
  "event-both-hands",
  "earlier-injury-contradicts",
  "comparison-side-injured",
  "only-other-side-imaged",
  "note-names-other-hand",
  "treatment-after-return",
  "treatment-through-surgery",
  "first-distance-after-treatment",
  "visits-go-back",
  "visit-before-first-visit",
  "gave-up-without-date",
  "grade-source-without-rows",
  "site-definition-missing",
] as const;
export type HistoryCode = (typeof historyCodes)[number];

/** About the habits in which a column was filled. */
export const habitCodes = [
  "rater-unit-doubtful",
  "distance-digits-preferred",
  "returns-heaped-on-weeks",
  "returns-heaped-on-weekday",
  "returns-heaped-in-month",
  "distance-drifts",
  "grade-share-drifts",
] as const;
export type HabitCode = (typeof habitCodes)[number];

/** About the site's answers to earlier queries, and what they do to a row. */
export const answerCodes = [
  "left-out-by-answer",
  "answer-stale",
  "answer-contradictory",
  "answer-incomplete",
  "answer-not-possible",
  "answer-elsewhere",
  "answer-without-effect",
  "answer-leaves-row-aside",
] as const;
export type AnswerCode = (typeof answerCodes)[number];

/** About a file that is read by a mapping, and what has changed since it was mapped. */
export const mappingCodes = [
  "mapping-header-not-found",
  "mapping-column-gone",
  "mapping-column-new",
  "mapping-value-new",
  "mapping-unit-shifted",
  "mapping-date-order-changed",
  "mapping-sources-differ",
  "row-left-out",
  "cell-repaired",
  "cell-in-parts",
] as const;
export type MappingCode = (typeof mappingCodes)[number];

/** Every kind of query, in plain words. */
export const queryCodes = [
  ...fileCodes,
  ...cellCodes,
  ...rowCodes,
  ...linkCodes,
  ...historyCodes,
  ...habitCodes,
  ...answerCodes,
  ...mappingCodes,
] as const;
export type QueryCode = (typeof queryCodes)[number];
