import type { CellWords, Concept } from "./languages/language.js";

/**
 * What becomes of the cells of a field in a copy that may leave the site. Every field says it, so that a new one cannot
 * slip into a copy undecided.
 *
 * - keep: as it is; leave-out: free text;
 * - move: a date, moved onto the person's own calendar; it says whether it is the day of the injury, a day of contact with
 *   the clinic, which may tell on what weekdays that is open, or a day of the person's own;
 * - only-on-scale: kept where it is a level of the injury's scale, so that no other words leave;
 * - rename: a keyed name of that kind; band: the middle of a band of that kind;
 * - never: the table itself is never copied.
 */
export type Sharing =
  | "keep"
  | "leave-out"
  | "only-on-scale"
  | "never"
  | { readonly move: "injury" | "contact" | "own" }
  | { readonly rename: "injury" | "person" | "event" | "site" | "rater" | "definition" }
  | { readonly band: "age" | "years" | "body"; readonly highest: number };

/** What a column name of a site's own sheet speaks of when it names a field; `weight` where that alone is a weak sign. */
export interface HeaderSign {
  readonly needs: readonly Concept[];
  readonly also?: readonly Concept[];
  readonly weight?: number;
}

/** How the column is recognised in a site's own sheet: by any of these signs, or by the field's own name only. */
export type Header = "own-name" | readonly HeaderSign[];

/**
 * The vocabulary in which a site writes the terms of a choice or list. `hand_beside_finger` is a hand that may stand in
 * one cell with the finger; `own-words`: the terms themselves and nothing else.
 */
export type CellVocabulary =
  | Exclude<keyof CellWords, "grade_prefix" | "not_yet" | "suspected" | "filler">
  | "hand_beside_finger"
  | "pulley"
  | "pulleys"
  | "grade"
  | "own-words";

/**
 * Where a date stands in the course of an injury; the rules on dates and the reading of a site's own sheet follow it.
 *
 * - injury: day 0; course: from the injury to the last contact; last-contact: the last day of all;
 * - end: of what a `course` date of the same row began; free: none of these.
 */
export type When = "injury" | "course" | "last-contact" | "end" | "free";

/**
 * How the cell of an invented injury comes about.
 *
 * - drawn: from the person, the injury and its course, by code in `synthetic/`, which does not compile without it;
 * - blank; always: the same in every row;
 * - weights: one of the terms in proportion to its weight, whatever else holds.
 */
export type Invented<Value = string | number> =
  | "drawn"
  | "blank"
  | { readonly always: Value }
  | { readonly weights: { readonly [Term in Value & string]?: number } };

/** What a study may do with a field: compare the groups that its terms make and adjust for them; adjust for its number. */
export type Covariate = "groups" | "number" | "no";

/** The parts of the single sheet that hold fields of the injuries, in the order of the sheet. */
export type SheetPart = "person" | "injury" | "end" | "levels" | "notes";

/**
 * Where a field of the injuries stands in the single sheet.
 *
 * - not: the sheet has no room for it;
 * - part: it is a column of that part, just as it is here, under its own name or another;
 * - from: it is read from a column that the sheet describes itself, by code in `ingest/cohort/`.
 */
export type SheetPlace =
  | "not"
  | { readonly part: SheetPart; readonly as?: string }
  | { readonly from: string };

/** What is said of every field of a table, whatever it holds. */
export interface SaidOfAny {
  readonly description: string;
  /** A cell as it would stand in the CSV. */
  readonly example: string;
  /** What a blank says, where it says something: then a cell that cannot be read may not be taken for a blank. */
  readonly blankSays?: string;
  /** The field in the words of a reader, where that is not its name with spaces. */
  readonly label?: string;
  readonly sharing: Sharing;
  readonly header: Header;
  readonly invented: Invented;
  /** Of the injuries: where it stands in the single sheet. */
  readonly sheet?: SheetPlace;
  /** Of the injuries: what a study may do with it. */
  readonly covariate?: Covariate;
  /** Its terms say alone what they are of, as "female" and "left" do and "3" and "none" do not. */
  readonly plainTerms?: true;
  /** The same in every row of a person: left out of one row, it would be read in the next. */
  readonly ofPerson?: true;
  /** Of a name: there are few, and they repeat from row to row. */
  readonly fewNames?: true;
  /** Of a name: it stands on several rows, one a visit. */
  readonly onSeveralRows?: true;
  /** Counted for rare combinations before a copy leaves, unless the settings say otherwise. */
  readonly knownOutside?: true;
  /** What a study times: it stays in a shared copy whatever it tells. */
  readonly timed?: true;
  /** A blank is no gap in the data: a name or a remark that most rows do not need. */
  readonly mayBeBlank?: true;
}

export interface SaidOfDate extends SaidOfAny {
  readonly when: When;
  /** The field that says how exactly the date is known, where there is one. */
  readonly precision?: string;
}

export interface SaidOfNumber extends SaidOfAny {
  readonly minimum: number;
  readonly maximum: number;
  /** UCUM code, where the field is a quantity. */
  readonly unit?: string;
  /** Where the median of a column lies, in our unit: it tells in what unit a site writes. From the plausible range. */
  readonly usualMedian?: readonly [number, number];
}

export interface SaidOfTerms<Term extends string = string> extends SaidOfAny {
  readonly cells: CellVocabulary;
  /** Spellings that can mean one term only; see `cells/spellings`. */
  readonly spellings?: Readonly<Record<string, Term>>;
  readonly invented: Invented<Term>;
}
