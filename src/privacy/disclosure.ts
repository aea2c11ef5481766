import { z } from "zod";
import { identifyingKinds } from "../schema/identifying/patterns.js";
import { linkedTableNames } from "../schema/table-names.js";
import { count, disclosedSettings } from "./settings.js";
import type { Unchanging } from "./unchanging.js";

const table = z.enum(linkedTableNames);

const columnDisclosure = z
  .strictObject({
    table,
    column: z.string(),
    done: z.enum(["kept", "renamed", "moved", "banded", "only-on-scale", "left-out"]),
    says: z
      .string()
      .describe("What was done, in words, for example: ages in bands of 5 years, 90 and over together"),
    cells_before: count.describe("Cells that are not blank in the rows used"),
    cells_in_copy: count.describe("Cells that are not blank in the copy"),
  })
  .describe("What was done to one column, and how much of it is left");

const classSizes = z.array(
  z.strictObject({
    from: count.describe("Smallest number of people in a class"),
    to: count.nullable().describe("Largest number of people in a class; null if there is no limit"),
    classes: count,
    rows: count,
  }),
);

const combinations = z.strictObject({
  k: count,
  fields: z.array(z.string()),
  before: classSizes,
  in_copy: classSizes.describe("Values that can still be inferred count as known"),
  made_coarser: z.array(z.string()).describe("Whole columns, in the order in which they were made coarser"),
  cells_left_out: z.array(z.strictObject({ field: z.string(), cells: count })),
  injuries_left_out: count.describe("Injuries left out completely, because leaving out cells was not enough"),
  rare_rows: z
    .array(z.strictObject({ row: count, people: count }))
    .describe(
      "Rows of the injuries in the copy, as a spreadsheet numbers them, whose combination fewer than k people share",
    ),
});

const injuryDays = z
  .strictObject({
    window: count.describe("Number of days before the closing date within which each person's record ends"),
    fewest: count
      .nullable()
      .describe(
        "Smallest number of days that remain possible for the first injury of a person; null without people",
      ),
    people: z
      .array(z.strictObject({ from: count, to: count.nullable(), people: count }))
      .describe("People by the number of possible days: from, to; to is null if there is no limit"),
    people_in_reach_of_close: count.describe("People last seen within the window before the closing date"),
    people_to_the_week: count.describe("People whose days of contact are given to the week"),
    people_with_months: count.describe(
      "People with a date known to the month, which is given as a span of days",
    ),
    injuries_after_their_record: count.describe("Injuries on days after the end of the person's record"),
    returns_after_their_record: z
      .array(
        z.strictObject({
          milestone: z.enum(["easy_climbing", "full_climbing", "previous_level"]),
          before: count.describe("Injuries with a day or a latest day of the milestone in the rows used"),
          in_copy: count,
        }),
      )
      .describe("Returns by the end of the person's record, compared with all returns"),
    days_followed: z
      .strictObject({ before: count, in_copy: count })
      .describe("Days from injury to last contact, all injuries together"),
  })
  .describe(
    "What the copy discloses about days of injury to somebody who knows when a site's first and last patients were seen, " +
      "and on which weekdays or days of the month it is open; and what the protection cost",
  );

const readBack = z
  .strictObject({
    field: z.string(),
    cells: count.describe("Cells left out or made coarser"),
    commonest: count.describe("Cells that are right by always naming the most common value"),
    allowed: count.describe("The same and one standard deviation of such a guess"),
    read_back_before: count.describe(
      "Cells that could be inferred from all other columns before any were left out",
    ),
    read_back: count.describe("Cells that can be inferred from the remaining columns"),
    columns: z.array(z.string()).describe("Columns left out together with these cells, as table.column"),
  })
  .describe("What was left out or made coarser, and how much of it can be inferred from other columns");

/** What leaves, what was done to it, and what somebody could still find out. All of it can be counted in the copy. */
export const disclosureSchema = z.strictObject({
  format: z.literal("pulley-outcomes disclosure 2"),
  settings: disclosedSettings,
  rows: z.array(z.strictObject({ table, used: count, in_copy: count })),
  people: count,
  people_with_several_injuries: count,
  injury_days: injuryDays,
  columns: z.array(columnDisclosure),
  combinations,
  read_back: z.array(readBack),
  one_outcome: z
    .strictObject({ classes: count, people: count })
    .describe(
      "Combinations of at least two people who all had, or all had not, the return that the study counts",
    ),
  rare_values: z
    .array(z.strictObject({ column: z.string(), values: count, people: count }))
    .describe("Values of other columns of the injuries that fewer than k people share"),
  in_texts: z
    .array(z.strictObject({ table, column: z.string(), kind: z.enum(identifyingKinds), texts: count }))
    .describe("What free text in the rows used seems to contain; none of the text is in the copy"),
});

export type Disclosure = Unchanging<z.infer<typeof disclosureSchema>>;
export type ColumnDisclosure = Disclosure["columns"][number];
