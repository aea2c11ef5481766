/** What a word in a column name can speak of. A column name is a set of these: "Unfalldatum" is injury and date. */
export const concepts = [
  "person",
  "site",
  "sex",
  "age",
  "birth",
  "injury",
  "visit",
  "date",
  "hand",
  "dominant",
  "finger",
  "pulley",
  "extent",
  "grade",
  "bowstringing",
  "treatment",
  "start",
  "end",
  "first",
  "second",
  "last",
  "distance",
  "rest",
  "loaded",
  "scan",
  "climbing",
  "return",
  "easy",
  "full",
  "previous",
  "level",
  "before",
  "after",
  "gave_up",
  "new_rupture",
  "contact",
  "status",
  "scale",
  "notes",
  "number",
  "kind",
  "duration",
  "pain",
  "onset",
  "grip",
  "mass",
  "height",
  "modality",
  "position",
  "rater",
  "years",
  "taped",
  "warm",
  "blind",
  "reading",
  "angle",
  "pip",
  "dip",
  "flexion",
  "deficit",
  "hours",
  "worn",
  "week_days",
  "adherence",
  "reason",
  "provider",
  "rebuilt",
  "satisfaction",
  "strength",
  "force",
  "other_side",
  "complication",
  "mechanism",
  "setting",
  "prior",
  "source",
] as const;
export type Concept = (typeof concepts)[number];

/** Words and phrases, separated by commas. */
export type Phrases = string;

/** Words for the terms of a coded column, by term. */
export type TermWords = Readonly<Record<string, Phrases>>;

/** What the words of a cell can speak of. */
export interface CellWords {
  readonly finger: TermWords;
  readonly hand: TermWords;
  readonly sex: TermWords;
  readonly extent: TermWords;
  readonly treatment: TermWords;
  readonly bowstringing: TermWords;
  readonly end_status: TermWords;
  readonly yes_no: TermWords;
  readonly side: TermWords;
  readonly modality: TermWords;
  readonly position: TermWords;
  readonly adherence: TermWords;
  readonly reason_ended: TermWords;
  readonly visit_kind: TermWords;
  readonly complication: TermWords;
  readonly onset: TermWords;
  readonly grip: TermWords;
  readonly treatment_kind: TermWords;
  readonly setting: TermWords;
  readonly mechanism: TermWords;
  /** Words before a grade, as "Grad". */
  readonly grade_prefix: { readonly grade: Phrases };
  /** Words that say that a dated thing has not happened. */
  readonly not_yet: { readonly not_yet: Phrases };
  /** Words that add nothing, as "finger" in "ring finger". */
  readonly filler: { readonly filler: Phrases };
}

/**
 * The general vocabulary of one language, written in small letters without accents.
 * Compound words need not be listed: "behandlungsbeginn" is taken apart into "behandlung" and "beginn".
 */
export interface Vocabulary {
  readonly language: string;
  readonly headers: Readonly<Partial<Record<Concept, Phrases>>>;
  /** Words in column names that say nothing. */
  readonly fillers: Phrases;
  readonly cells: CellWords;
}

/** Phrases one by one. */
export const phrasesOf = (phrases: Phrases | undefined): readonly string[] =>
  phrases === undefined || phrases === "" ? [] : phrases.split(", ");
