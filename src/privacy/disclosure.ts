import { z } from "zod";
import { identifyingKinds } from "../schema/identifying/patterns.js";
import { linkedTableNames } from "../schema/table-names.js";
import { count, toldSettings } from "./settings.js";
import type { Unchanging } from "./unchanging.js";

const table = z.enum(linkedTableNames);

const columnDisclosure = z
  .strictObject({
    table,
    column: z.string(),
    done: z.enum(["kept", "renamed", "moved", "banded", "only-on-scale", "left-out"]),
    says: z.string().describe("What was done in words, as: ages in bands of 5 years, 90 and over together"),
    cells_before: count.describe("Cells that hold something in the rows used"),
    cells_in_copy: count.describe("Cells that hold something in the copy"),
  })
  .describe("What was done to one column, and how much of it is left");

const classSizes = z.array(
  z.strictObject({
    from: count.describe("People in a class, at least"),
    to: count.nullable().describe("People in a class, at most; null for the open end"),
    classes: count,
    rows: count,
  }),
);

const combinations = z.strictObject({
  k: count,
  fields: z.array(z.string()),
  before: classSizes,
  in_copy: classSizes,
  made_coarser: z.array(z.string()).describe("Whole columns, in the order in which it was done"),
  cells_left_out: z.array(z.strictObject({ field: z.string(), cells: count })),
  rare_rows: z
    .array(z.strictObject({ row: count, people: count }))
    .describe(
      "Rows of the injuries in the copy, as a spreadsheet numbers them, whose combination fewer than k people share",
    ),
});

/** What leaves, what was done to it, and what somebody could still find out. All of it can be counted in the copy. */
export const disclosureSchema = z.strictObject({
  format: z.literal("pulley-outcomes disclosure 1"),
  settings: toldSettings,
  rows: z.array(z.strictObject({ table, used: count, in_copy: count })),
  people: count,
  people_with_several_injuries: count,
  people_with_months_kept: count.describe(
    "People whose calendar keeps the length of some month, since a date is known to the month only",
  ),
  columns: z.array(columnDisclosure),
  combinations,
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
    .describe("What free text in the rows used seems to hold; none of the text is in the copy"),
});

export type Disclosure = Unchanging<z.infer<typeof disclosureSchema>>;
export type ColumnDisclosure = Disclosure["columns"][number];
