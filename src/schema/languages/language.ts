import type * as terms from "../terms.js";

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

/** Words and phrases in small letters without accents, separated by ", "; "" where the language has none to add. */
export type Phrases = string;

/** Words for each term of a closed vocabulary. */
type WordsFor<Terms extends readonly string[]> = Readonly<Record<Terms[number], Phrases>>;

/** What the words of a cell can speak of. */
export interface CellWords {
  readonly finger: Omit<WordsFor<typeof terms.fingers>, "not_stated">;
  readonly hand: Omit<WordsFor<typeof terms.hands>, "not_stated">;
  readonly sex: WordsFor<typeof terms.sexes>;
  readonly extent: WordsFor<typeof terms.extents>;
  readonly treatment: WordsFor<typeof terms.treatments>;
  readonly bowstringing: WordsFor<typeof terms.bowstringing>;
  readonly end_status: WordsFor<typeof terms.endStatuses>;
  readonly yes_no: Omit<WordsFor<typeof terms.yesNoUnknown>, "unknown">;
  readonly side: WordsFor<typeof terms.sides>;
  readonly modality: WordsFor<typeof terms.modalities>;
  readonly position: WordsFor<typeof terms.positions>;
  readonly adherence: WordsFor<typeof terms.adherences>;
  readonly reason_ended: WordsFor<typeof terms.reasonsEnded>;
  readonly visit_kind: WordsFor<typeof terms.visitKinds>;
  readonly complication: WordsFor<typeof terms.complications>;
  readonly onset: WordsFor<typeof terms.onsets>;
  readonly grip: WordsFor<typeof terms.grips>;
  readonly treatment_kind: WordsFor<typeof terms.treatmentKinds>;
  readonly setting: WordsFor<typeof terms.settings>;
  readonly mechanism: WordsFor<typeof terms.mechanisms>;
  /** Words before a grade, as "Grad". */
  readonly grade_prefix: { readonly grade: Phrases };
  /** Words that say that a dated thing has not happened. */
  readonly not_yet: { readonly not_yet: Phrases };
  /** Words that say that a finding is only suspected. */
  readonly suspected: { readonly suspected: Phrases };
  /** Words that add nothing, as "finger" in "ring finger". */
  readonly filler: { readonly filler: Phrases };
}

/** Words for spans of time. */
type UnitWords = Readonly<Record<"days" | "weeks" | "months", Phrases>>;

/** The words that dates and times are written with. */
export interface DateWords {
  /** Every form of the name; its first three letters or more are understood where they leave one month. */
  readonly months: Readonly<
    Record<
      | "january"
      | "february"
      | "march"
      | "april"
      | "may"
      | "june"
      | "july"
      | "august"
      | "september"
      | "october"
      | "november"
      | "december",
      Phrases
    >
  >;
  /** Names and abbreviations. */
  readonly weekdays: Readonly<
    Record<"monday" | "tuesday" | "wednesday" | "thursday" | "friday" | "saturday" | "sunday", Phrases>
  >;
  /** Units behind a number in a cell, abbreviations included: "8 wks". */
  readonly elapsed: UnitWords;
  /** Units in a column name that say what its numbers count: "weeks to full climbing". */
  readonly counted: UnitWords;
  /** Before or behind the number of a calendar week: "KW 12". */
  readonly calendar_week: Phrases;
  /** Before a time since the injury: "about 8 weeks", "after 8 weeks". */
  readonly about: Phrases;
  /** Before a time or day that something came later than: "more than 12 weeks". */
  readonly more_than: Phrases;
  /** Before a time that something came sooner than: "less than 12 weeks". */
  readonly less_than: Phrases;
  /** Behind a time since the injury: "8 weeks later". */
  readonly later: Phrases;
  /** Before a month, known to no better than the month: "early March". */
  readonly part_of_month: Phrases;
  /** Between day, month and year: "4 de marzo de 2024". */
  readonly of: Phrases;
  /** Behind the number of a day or finger: "4th". */
  readonly ordinals: Phrases;
  /** Before the first of two days: "between". */
  readonly between: Phrases;
  /** From one to the other: "4 to 6 weeks". */
  readonly to: Phrases;
  /** Between two treatments, one after the other. */
  readonly afterwards: Phrases;
  /** Between two days that "between" announces. */
  readonly and: Phrases;
  /** Before a time of day. */
  readonly at: Phrases;
  /** Behind a time of day: "Uhr". */
  readonly oclock: Phrases;
  /** Behind a year: "r." */
  readonly year: Phrases;
}

/**
 * The general vocabulary of one language, all of it in one file. Words are general ones, as any dictionary has them.
 * Compound words need not be listed: "behandlungsbeginn" is taken apart into "behandlung" and "beginn".
 */
export interface Language {
  readonly name: string;
  /** Whether words are joined into longer ones. */
  readonly compounds: boolean;
  readonly dates: DateWords;
  /** Before the number of a finger: "digit 4". */
  readonly finger_number: Phrases;
  readonly headers: Readonly<Record<Concept, Phrases>>;
  /** Words in column names that say nothing. */
  readonly fillers: Phrases;
  readonly cells: CellWords;
}

/** Phrases one by one. */
export const phrasesOf = (phrases: Phrases): readonly string[] => (phrases === "" ? [] : phrases.split(", "));
