import type { DateOrder } from "../../../schema/cells/read-date.js";
import { counted } from "../../../schema/counted.js";
import { figuresBeforeYear } from "./date-shapes.js";
import type { Profile } from "./profile.js";

type Order = Exclude<DateOrder, "year-first">;

/** What the cells of one column say about the order of day and month. */
export interface OrderEvidence {
  readonly profile: Profile;
  /** Cells with the year last. */
  readonly yearLast: number;
  /** Cells that are a date day-first only, and month-first only. */
  readonly dayFirst: number;
  readonly monthFirst: number;
  readonly hasTwoDigitYears: boolean;
}

/** Counts what the figures of a column allow. */
export function orderEvidence(profile: Profile): OrderEvidence {
  const found = { yearLast: 0, dayFirst: 0, monthFirst: 0, hasTwoDigitYears: false };
  for (const [cell, times] of profile.distinct) {
    const figures = figuresBeforeYear(cell);
    if (figures === null) continue;
    found.yearLast += times;
    if (figures.first > 12) found.dayFirst += times;
    if (figures.second > 12) found.monthFirst += times;
    found.hasTwoDigitYears ||= figures.year < 100;
  }
  return { profile, ...found };
}

/** The order that a column shows by itself. */
export function orderOf({ dayFirst, monthFirst }: OrderEvidence): Order | "both" | null {
  if (dayFirst > 0 && monthFirst > 0) return "both";
  return dayFirst > 0 ? "day-first" : monthFirst > 0 ? "month-first" : null;
}

/** What was found out about the order of day and month in a file. */
export interface FileOrder {
  /** Null where it cannot be decided. */
  readonly order: DateOrder | null;
  readonly evidence: string;
  /** Columns that show another order than the file. */
  readonly exceptions: readonly { readonly profile: Profile; readonly order: Order }[];
  /** Columns that show both orders: no order reads all their cells. */
  readonly mixed: readonly Profile[];
  /** A cell that could be read either way. */
  readonly example: string | null;
}

/** In how many rows an order would put dates against their sequence. */
export type CountReversals = (order: Order) => number;

/**
 * The order of day and month in a file: by cells that allow one order only, else by which order keeps the dates of a
 * row in their sequence. Columns may differ when each shows its own order.
 */
export function fileOrder(evidence: readonly OrderEvidence[], countReversals: CountReversals): FileOrder {
  const yearLast = evidence.filter((each) => each.yearLast > 0);
  const mixed = yearLast.filter((each) => orderOf(each) === "both").map(({ profile }) => profile);
  const example = yearLast.flatMap(({ profile }) => [...profile.distinct.keys()]).find(isEitherWay) ?? null;
  const found = { exceptions: [], mixed, example };
  if (yearLast.length === 0) {
    return { ...found, order: "year-first", evidence: "all dates put the year first" };
  }
  const cells = (order: Order) => yearLast.reduce((sum, each) => sum + cellsFor(each, order), 0);
  const counts = { "day-first": cells("day-first"), "month-first": cells("month-first") };
  if (counts["day-first"] + counts["month-first"] === 0) return bySequence(found, countReversals);
  const order: Order = counts["day-first"] >= counts["month-first"] ? "day-first" : "month-first";
  const exceptions = yearLast.flatMap((each) => {
    const own = orderOf(each);
    return own === null || own === "both" || own === order ? [] : [{ profile: each.profile, order: own }];
  });
  const place = order === "day-first" ? "first" : "second";
  return {
    ...found,
    order,
    exceptions,
    evidence: `${counted(counts[order], "date has", "dates have")} a number over 12 in the ${place} position`,
  };
}

const cellsFor = (each: OrderEvidence, order: Order): number =>
  order === "day-first" ? each.dayFirst : each.monthFirst;

function bySequence(
  found: Pick<FileOrder, "exceptions" | "mixed" | "example">,
  countReversals: CountReversals,
): FileOrder {
  const [dayFirst, monthFirst] = [countReversals("day-first"), countReversals("month-first")];
  if (Math.min(dayFirst, monthFirst) === 0 && Math.max(dayFirst, monthFirst) > 0) {
    const [order, other] =
      dayFirst === 0 ? (["day-first", "month-first"] as const) : (["month-first", "day-first"] as const);
    const rows = Math.max(dayFirst, monthFirst);
    return {
      ...found,
      order,
      evidence: `if read ${other}, ${counted(rows, "row", "rows")} would have a date before the injury or after the last contact; if read ${order}, none`,
    };
  }
  return { ...found, order: null, evidence: "no number is over 12" };
}

function isEitherWay(cell: string): boolean {
  const figures = figuresBeforeYear(cell);
  return figures !== null && figures.first <= 12 && figures.second <= 12 && figures.first !== figures.second;
}
