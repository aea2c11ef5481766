/** How dates leave: as days from the person's first injury, moved by a secret number of days, or as they are. */
export type DatesLeave = "offsets" | "shifted" | "as-they-are";

/** What is done about combinations that few people share: listed, columns made coarser, or cells left out. */
export type RareCombinations = "list" | "generalise" | "suppress";

/** How a shareable copy is made. */
export interface ShareSettings {
  readonly dates: DatesLeave;
  /** With shifted dates: the most days a person's dates are moved, either way. */
  readonly shiftDays: number;
  /** Width of the bands of age and of years of climbing, in years. */
  readonly bandYears: number;
  /** Ages from here on are one band; 90 as in 45 CFR 164.514(b)(2)(i)(C). */
  readonly oldest: number;
  /** Body mass and height: left out, or in bands of 5 kg and 5 cm. */
  readonly body: "left-out" | "banded";
  /** How many people must share a combination, at least. */
  readonly k: number;
  /** The columns of the injuries whose combinations are counted; null for the usual ones. */
  readonly fields: readonly string[] | null;
  readonly rare: RareCombinations;
  /** Rows in the order of their names, which tells nothing, or as they stood, which may tell the order in time. */
  readonly order: "by-name" | "as-it-was";
  /** Columns of the injuries that the study compares by or adjusts for: made coarser last. */
  readonly neededByStudy: readonly string[];
  /** The return that the study counts, for the warning about classes of one outcome. */
  readonly milestone: "easy_climbing" | "full_climbing" | "previous_level";
  /** Day on which the data were closed; null when not stated. */
  readonly closedOn: string | null;
}

/** What holds where nothing else is asked for. */
export const defaultSettings: ShareSettings = {
  dates: "offsets",
  shiftDays: 364,
  bandYears: 5,
  oldest: 90,
  body: "left-out",
  k: 5,
  fields: null,
  rare: "list",
  order: "by-name",
  neededByStudy: [],
  milestone: "full_climbing",
  closedOn: null,
};
