/** What happens to the row: the run stops, the row is set aside until answered, or it is used and shown. */
export type Severity = "stop" | "set-aside" | "look-at";

/**
 * A doubt about the data, as plain data: its sentence is made last, by `sayQuery`.
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

/** Every kind of doubt, in plain words. */
export const queryCodes = [
  // the file
  "file-missing",
  "file-empty",
  "file-header-only",
  "file-not-text",
  "file-not-utf8",
  "file-too-large",
  "wrong-delimiter",
  "unbalanced-quote",
  "column-missing",
  "column-unknown",
  "column-twice",
  "row-too-long",
  "row-too-short",
  // a cell
  "value-missing",
  "date-unreadable",
  "date-day-or-month-first",
  "date-impossible",
  "number-unreadable",
  "number-with-bound",
  "number-range",
  "number-out-of-range",
  "term-unknown",
  "grade-without-letter",
  "grade-range",
  "extents-not-matching-pulleys",
  // a row against itself
  "event-before-injury",
  "event-after-last-contact",
  "date-in-future",
  "milestones-out-of-order",
  "interval-inside-out",
  "episode-inside-out",
  "completed-without-milestone",
  "milestone-after-giving-up",
  "grade-3-without-complete-a2",
  "grade-2-with-complete-a2",
  "grade-1-with-tear",
  "grade-4-needs-several-or-complication",
  "grade-4a-visible-bowstringing",
  "grade-4b-without-bowstringing",
  "thumb-with-grade",
  "years-climbing-exceed-age",
  "return-unusually-late",
  "return-unusually-early",
  "age-under-17",
  // rows against each other
  "identifier-twice",
  "row-without-injury",
  "site-unknown",
  "possible-duplicate",
  "same-finger-again",
  "person-contradicts-itself",
  "surgery-in-grade-1",
  "surgery-twice",
  "same-treatment-overlaps",
  "loaded-below-rest",
  "distance-against-grade",
  "distance-unit-doubtful",
  "visit-contradicts-milestone",
  "treatment-without-start",
] as const;
export type QueryCode = (typeof queryCodes)[number];
