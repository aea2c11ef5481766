import type { z } from "zod";
import { daysBetween, type IsoDate } from "../dates.js";
import { fieldsOf } from "../field.js";
import type { When } from "../said-of-field.js";
import type { returnPrecisions } from "../terms.js";
import type { RowRule } from "./row-rule.js";

/** A column that holds a date, and the one that says how exactly it is known, if there is one. */
export interface DatedColumn<Row> {
  readonly column: keyof Row & string;
  readonly precision?: keyof Row & string;
}

/** A date and how many days it may be off to either side. */
export interface Dated {
  readonly date: IsoDate;
  readonly slack: number;
}

type ReturnPrecision = (typeof returnPrecisions)[number];
/** A date has no business beside `later`, see the rule `later-without-bound`. */
const slackDays: Readonly<Record<ReturnPrecision, number>> = { day: 0, week: 6, month: 30, later: 0 };

/** How many days a date may be off: none, six in a week, thirty in a month. Blank is read as day. */
export const slackOf = (precision: ReturnPrecision | null): number => slackDays[precision ?? "day"];

/** The date in a column with its slack; null where the cell is blank. */
export function datedIn<Row>(values: Row, { column, precision }: DatedColumn<Row>): Dated | null {
  const date = values[column] as IsoDate | null;
  if (date === null) return null;
  return { date, slack: precision === undefined ? 0 : slackOf(values[precision] as ReturnPrecision | null) };
}

/** Whether one date lies before another however inexact the two are. */
export function surelyBefore(one: Dated, other: Dated): boolean {
  if (one.date >= other.date) return false;
  const slack = one.slack + other.slack;
  return slack === 0 || daysBetween(one.date, other.date) > slack;
}

/** The columns of a table that hold dates, with their precision; only those that stand there in the course, where named. */
export const datedColumns = <Row extends z.ZodObject>(
  row: Row,
  when?: When,
): readonly DatedColumn<z.infer<Row>>[] =>
  fieldsOf(row)
    .filter((field) => (when === undefined ? field.when !== undefined : field.when === when))
    .map(({ name, precision }) => ({
      column: name as keyof z.infer<Row> & string,
      ...(precision === undefined ? {} : { precision: precision as keyof z.infer<Row> & string }),
    }));

/** One rule for each dated column: not after the day on which the data were closed. */
export const notInFuture = <Row>(columns: readonly DatedColumn<Row>[]): readonly RowRule<Row>[] =>
  columns.map((dated) => ({
    code: "date-in-future",
    severity: "set-aside",
    check: (values, { closedOn }) => {
      const found = closedOn === null ? null : datedIn(values, dated);
      if (found === null || closedOn === null || !surelyBefore({ date: closedOn, slack: 0 }, found))
        return null;
      return { column: dated.column, found: found.date, facts: { closed_on: closedOn } };
    },
  }));
