import { z } from "zod";
import type { Unchanging } from "./unchanging.js";

/** A number of something. */
export const count = z.number().int().min(0);

/** Windows that may be chosen, days: each twice the one before, so that copies do not narrow each other. */
export const closingWindows = [28, 56, 112, 224] as const;

/** Ranges of shifted dates that may be chosen, days; each twice the one before, for the same reason. */
export const shiftRanges = [182, 364, 728, 1456] as const;

/** How a shareable copy is made, as far as its report tells. */
export const disclosedSettings = z
  .strictObject({
    dates: z
      .enum(["offsets", "shifted", "as-they-are"])
      .describe(
        "Dates as days from the person's first injury, shifted by a secret number of days, or unchanged",
      ),
    shiftDays: z
      .literal(shiftRanges)
      .describe(
        "With shifted dates: the largest number of days by which a person's dates are shifted, either way, beyond the closing window",
      ),
    closingWindow: z
      .literal(closingWindows)
      .describe(
        "Number of days before the closing date within which each person's record ends, on a day known only to the holder of the key",
      ),
    bandYears: count.describe("Width of the bands of age and of years of climbing, in years"),
    oldest: count.describe("Age from which all ages form one band; 90 as in 45 CFR 164.514(b)(2)(i)(C)"),
    body: z
      .enum(["left-out", "banded"])
      .describe("Body mass and height: left out, or in bands of 5 kg and 5 cm"),
    k: count.describe("Smallest number of people who must share a combination of values"),
    fields: z
      .array(z.string())
      .nullable()
      .describe("The columns of the injuries whose combinations are counted; null for the usual ones"),
    rare: z
      .enum(["list", "generalise", "suppress"])
      .describe(
        "What is done about combinations that few people share: they are listed, columns are made coarser, or cells are left out",
      ),
    order: z
      .enum(["by-name", "as-it-was"])
      .describe(
        "Rows in the order of their keyed names, which discloses nothing, or in their original order, which may be the order in time",
      ),
    neededByStudy: z
      .array(z.string())
      .describe(
        "Columns of the injuries that the study compares by or adjusts for; they are made coarser last",
      ),
    milestone: z
      .enum(["easy_climbing", "full_climbing", "previous_level"])
      .describe("The return that the study counts, for the warning about classes of one outcome"),
  })
  .describe("How the copy was made");

/** How a shareable copy is made. */
export interface ShareSettings extends Unchanging<z.infer<typeof disclosedSettings>> {
  /** Day on which the data were closed; null when not stated. */
  readonly closedOn: string | null;
}

export type DatesLeave = ShareSettings["dates"];
export type RareCombinations = ShareSettings["rare"];

/** What holds where nothing else is asked for. */
export const defaultSettings: ShareSettings = {
  dates: "offsets",
  shiftDays: 364,
  closingWindow: 28,
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
