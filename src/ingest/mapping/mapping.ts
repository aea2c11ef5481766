import { z } from "zod";
import { word } from "../../schema/settings/texts.js";
import { tableNames } from "../../schema/table-names.js";

/** Stands in `values` for a cell that counts as blank. */
export const blankAnswer = "blank";
/** Stands in `values` for a cell that stays a question to the site, row by row. */
export const askAnswer = "ask";

/** Whether a text of the file can be a key of a mapping: the one that cannot is queried row by row like any new word. */
export const isKey = (text: string): boolean => text !== "__proto__";

const columnName = word.describe("Name of a column, as it stands in the header of the file");
const dateOrder = z.enum(["year-first", "day-first", "month-first"]);
const decimalSign = z.enum(["point", "comma"]);

const rule = z
  .strictObject({
    from: z
      .union([columnName, z.array(columnName).min(1)])
      .optional()
      .describe("The column it comes from; of several the first that is not blank"),
    ticked: z
      .record(z.string(), columnName)
      .optional()
      .describe("For lists: the column in which each entry is ticked, or its extent written"),
    latest_of: z
      .array(columnName)
      .min(1)
      .optional()
      .describe("For dates: the latest day that stands in these columns"),
    born_on: columnName
      .optional()
      .describe(
        "For the age: a column of dates of birth; completed years on the day of the injury, which is all that is kept",
      ),
    born_in: columnName
      .optional()
      .describe(
        "For the age: a column of years of birth; completed years counted from 1 July, so that it may be one year off",
      ),
    constant: word.optional().describe("The same for every row, where the file has no column for it"),
    values: z
      .record(z.string(), word)
      .optional()
      .describe(
        `Cells of the file and what they mean; "${blankAnswer}" for nothing, "${askAnswer}" for a question about each row`,
      ),
    numbered: z
      .enum(["with_thumb", "without_thumb"])
      .optional()
      .describe("How fingers are counted: with the thumb, 4 is the ring finger; without it, 4 is the little"),
    counted: z
      .enum(["days", "weeks", "months"])
      .optional()
      .describe("For milestones written as times since the injury: what a plain number counts"),
    unit: z.string().optional().describe("Unit of the numbers in the file, where it is not ours"),
    decimal_sign: decimalSign.optional().describe("Where it differs from the rest of the file"),
    date_order: dateOrder.optional().describe("Where it differs from the rest of the file"),
  })
  .describe("Where a column of ours comes from, and how its cells are read");

const reading = rule
  .pick({ unit: true, counted: true, date_order: true, numbered: true, born_on: true, born_in: true })
  .describe("How the column is read");

const undecided = z
  .strictObject({
    question: z.string().describe("What could not be decided from the file"),
    decides: z.array(z.array(word).min(1)).min(1).describe("The keys of this file that the answer goes to"),
    example: z.string().optional().describe("A cell it is about"),
    choices: z.record(z.string(), z.string()).describe("The answers there are, and what each means"),
    reads: z
      .record(z.string(), reading)
      .optional()
      .describe("By answer, what goes to the column besides its name"),
    answer: word.nullable().optional().describe("One of the choices"),
  })
  .describe("A question that must be answered before the mapping is used");

const seen = z
  .strictObject({
    columns: z.array(z.string()).describe("Header of the file, in its order"),
    rows: z.number().int().min(0).describe("How many records it had"),
    medians: z
      .record(z.string(), z.number())
      .optional()
      .describe("Median of the numbers by column of ours, in the unit of the file"),
  })
  .describe("What the file looked like when it was mapped: a later file is held against it");

/** How the columns, words, units and dates of one site's file translate to ours. */
export const mappingSchema = z
  .strictObject({
    mapping: z
      .string()
      .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, "small letters, digits and hyphens, at most 64")
      .describe("Short name of the mapping"),
    table: z.enum(tableNames).default("single_sheet").describe("Which of our tables the file is"),
    sheet: z.string().optional().describe("Sheet of the workbook; the only one when left out"),
    header_rows: z
      .array(z.number().int().min(1))
      .min(1)
      .max(3)
      .optional()
      .describe("Rows that hold the header, as the spreadsheet shows them; found by itself when left out"),
    leave_out_rows: z
      .array(z.string().min(1))
      .default([])
      .describe("A row is no record when its first filled cell begins with one of these, as Total"),
    date_order: dateOrder
      .default("year-first")
      .describe("Which comes first in dates that do not put the year first"),
    two_digit_years_until: z
      .number()
      .int()
      .min(0)
      .max(99)
      .optional()
      .describe("25 reads 00 to 25 as 2000 to 2025 and 26 to 99 as 1926 to 1999; queried when left out"),
    day_numbers_from: z
      .union([z.literal(1900), z.literal(1904)])
      .optional()
      .describe("The year from which the spreadsheet counts days, for dates that stand as 45385"),
    decimal_sign: decimalSign.default("point").describe("How numbers with decimals are written"),
    columns: z.record(z.string(), rule).describe("By column of ours"),
    not_used: z.array(columnName).default([]).describe("Columns of the file knowingly not used"),
    undecided: z.array(undecided).max(1_000).default([]).describe("Empty before the mapping can be used"),
    seen: seen.optional(),
  })
  .describe("How one site's file translates into our columns");

export type Mapping = z.infer<typeof mappingSchema>;
export type ColumnRule = z.infer<typeof rule>;
export type Undecided = z.infer<typeof undecided>;
export type Seen = z.infer<typeof seen>;
export type DecimalSign = z.infer<typeof decimalSign>;

/** Columns of the file that a rule reads. */
export const sourcesOf = ({ from, ticked, latest_of, born_on, born_in }: ColumnRule): readonly string[] => [
  ...[from, born_on, born_in].flatMap((names) => names ?? []),
  ...Object.values(ticked ?? {}),
  ...(latest_of ?? []),
];
