import { z } from "zod";
import { word } from "../../schema/settings/texts.js";
import { tableNames } from "../../schema/table-names.js";

/** Stands in `values` for a cell that counts as blank. */
export const blankAnswer = "blank";
/** Stands in `values` for a cell that stays a question to the site, row by row. */
export const askAnswer = "ask";

/** Whether a text of the file can be a key of a mapping: the one that cannot is queried row by row like any new word. */
export const isKey = (text: string): boolean => text !== "__proto__";

const columnName = word.describe("Name of a column, as written in the header of the file");
const dateOrder = z.enum(["year-first", "day-first", "month-first"]);
const decimalSign = z.enum(["point", "comma"]);

const rule = z
  .strictObject({
    from: z
      .union([columnName, z.array(columnName).min(1)])
      .optional()
      .describe("The column it comes from; of several columns, the first that is not blank"),
    ticked: z
      .record(z.string(), columnName)
      .optional()
      .describe("For lists: the column in which each entry is ticked, or its extent written"),
    latest_of: z.array(columnName).min(1).optional().describe("For dates: the latest date in these columns"),
    born_on: columnName
      .optional()
      .describe(
        "For the age: a column of dates of birth; completed years on the day of the injury are computed, and nothing else is kept",
      ),
    born_in: columnName
      .optional()
      .describe(
        "For the age: a column of years of birth; completed years are counted from 1 July, so that the age may be wrong by one year",
      ),
    constant: word.optional().describe("The same value for every row, if the file has no column for it"),
    values: z
      .record(z.string(), word)
      .optional()
      .describe(
        `Cells of the file and what they mean; "${blankAnswer}" for a blank cell, "${askAnswer}" for a query about each row`,
      ),
    numbered: z
      .enum(["with_thumb", "without_thumb"])
      .optional()
      .describe(
        "How fingers are counted: with the thumb, 4 is the ring finger; without it, 4 is the little finger",
      ),
    counted: z
      .enum(["days", "weeks", "months", "asked"])
      .optional()
      .describe(
        "For milestones written as the time since the injury: the unit of a plain number; asked raises a query about each row",
      ),
    fractions: z
      .enum(["times", "asked"])
      .optional()
      .describe(
        "For milestones: whether 5/7 and 3/12 are days and months since the injury; asked raises a query about each row",
      ),
    ranges: z
      .enum(["ends", "between", "asked"])
      .optional()
      .describe(
        "For pulleys: whether A2-A4 names these two, or also everything between them; asked raises a query about each row",
      ),
    mixed: z
      .strictObject({
        number: z
          .enum(["grade", "finger_with_thumb", "finger_without_thumb", "nothing"])
          .optional()
          .describe("What a number that stands alone in such a cell is"),
        suspected: z
          .enum(["taken", "grade_unknown", "asked"])
          .optional()
          .describe(
            "What a suspicion (V.a., susp., ?) does: the cell is taken as written, its grade and extents count as not known, or a query about each row",
          ),
      })
      .optional()
      .describe(
        "For cells that hold several things, such as V.a. A2 Riss Grad III: each column of the toolkit reads its own part; a word under values then holds wherever it stands",
      ),
    unit: z
      .string()
      .optional()
      .describe("Unit of the numbers in the file, if it is not the unit of the toolkit"),
    decimal_sign: decimalSign.optional().describe("Only if it differs from the rest of the file"),
    date_order: dateOrder.optional().describe("Only if it differs from the rest of the file"),
  })
  .describe("Where a column comes from, and how its cells are read");

const reading = rule
  .pick({
    unit: true,
    counted: true,
    fractions: true,
    date_order: true,
    numbered: true,
    born_on: true,
    born_in: true,
  })
  .describe("How the column is read");

const undecided = z
  .strictObject({
    question: z.string().describe("What could not be decided from the file"),
    decides: z
      .array(z.array(word).min(1))
      .min(1)
      .describe("The keys of this file that the answer is written to"),
    example: z.string().optional().describe("An example of a cell that it is about"),
    choices: z.record(z.string(), z.string()).describe("The possible answers, and what each means"),
    reads: z
      .record(z.string(), reading)
      .optional()
      .describe("By answer, what is written to the column besides its name"),
    answer: word.nullable().optional().describe("One of the choices"),
  })
  .describe("A question that must be answered before the mapping can be used");

const seen = z
  .strictObject({
    columns: z.array(z.string()).describe("Header of the file, in its original order"),
    rows: z.number().int().min(0).describe("How many records it had"),
    medians: z
      .record(z.string(), z.number())
      .optional()
      .describe("Median of the numbers by column of the toolkit, in the unit of the file"),
  })
  .describe("What the file looked like when the mapping was made: later files are compared with it");

/** How the columns, words, units and dates of one site's file translate to ours. */
export const mappingSchema = z
  .strictObject({
    mapping: z
      .string()
      .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, "small letters, digits and hyphens, at most 64")
      .describe("Short name of the mapping"),
    table: z
      .enum(tableNames)
      .default("single_sheet")
      .describe("Which table of the toolkit the file contains"),
    one_row: z
      .enum(["injury", "visit"])
      .optional()
      .describe(
        "What a row of a single sheet is: an injury (the default), or a visit, so that the rows of an injury are folded into one",
      ),
    injuries_in_row: z
      .strictObject({
        groups: z
          .array(z.array(z.string()).min(1))
          .min(2)
          .max(9)
          .describe("By injury, its columns in one order for all; a blank where the file has none"),
        read: z
          .enum(["each", "first"])
          .describe("each: every filled group is an injury; first: only the first group is read"),
      })
      .optional()
      .describe("For rows with several injuries in numbered columns, such as Finger 1 and Finger 2"),
    sheet: z.string().optional().describe("Sheet of the workbook; may be left out if there is only one"),
    header_rows: z
      .array(z.number().int().min(1))
      .min(1)
      .max(3)
      .optional()
      .describe(
        "Rows that contain the header, as the spreadsheet shows them; found automatically if left out",
      ),
    leave_out_rows: z
      .array(z.string().min(1))
      .default([])
      .describe(
        "A row is not a record if its first filled cell begins with one of these words, for example Total",
      ),
    date_order: dateOrder
      .default("year-first")
      .describe("Which comes first in dates that do not put the year first"),
    two_digit_years_until: z
      .number()
      .int()
      .min(0)
      .max(99)
      .optional()
      .describe(
        "25 reads 00 to 25 as 2000 to 2025 and 26 to 99 as 1926 to 1999; if left out, two-digit years raise a query",
      ),
    day_numbers_from: z
      .union([z.literal(1900), z.literal(1904)])
      .optional()
      .describe(
        "The year from which the spreadsheet counts days, for dates that are stored as numbers such as 45385",
      ),
    decimal_sign: decimalSign.default("point").describe("How numbers with decimals are written"),
    columns: z.record(z.string(), rule).describe("By column of the toolkit"),
    not_used: z.array(columnName).default([]).describe("Columns of the file that are deliberately not used"),
    undecided: z
      .array(undecided)
      .max(1_000)
      .default([])
      .describe("Must be empty before the mapping can be used"),
    seen: seen.optional(),
  })
  .describe("How one site's file translates into the columns of the toolkit");

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
