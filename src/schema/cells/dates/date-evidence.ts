/** What the cells of a column say together about how its dates are written. */
export interface DateEvidence {
  /**
   * "day-first" or "month-first" where a cell can only be that (a part over 12) and none only the other;
   * "contradictory" where there are cells of both kinds, or where years of two digits seem to come first (24-03-04);
   * "undecided" where every cell could be either; "not-needed" where no cell leaves it open.
   */
  readonly order: "day-first" | "month-first" | "contradictory" | "undecided" | "not-needed";
  /** Cells that can only be day-first, only month-first, and either with a different meaning. */
  readonly dayFirst: CellsOfAKind;
  readonly monthFirst: CellsOfAKind;
  readonly either: CellsOfAKind;
  readonly twoDigitYears: CellsOfAKind;
  readonly serials: CellsOfAKind;
}

/** How many cells of a kind there are, and the first of them as it stands. */
export interface CellsOfAKind {
  readonly count: number;
  readonly first: string | null;
}

/** Longer cells hold more than a date. */
const longest = 60;

const figures = /^\D{0,12}?(\d{1,2})\s?[-/. ]\s?(\d{1,2})\s?[-/. ]\s?'?(\d{4}|\d{2})(?:\D.*)?$/;
const shortYear = /(?:[-/. ]\s?|')\d{2}$/;
const shortWithHyphens = /^\d{2}-\d{2}-\d{2}$/;
const serial = /^\d{5}(?:[.,]\d+)?$/;

/**
 * Looks through a whole column for what decides its dates: a part over 12 tells whether the day or the month comes
 * first. One cell is evidence enough, since the others of the column are written by the same hand or program; cells
 * that speak for both sides leave it to be asked.
 *
 * @param cells texts of one column; blank ones and those in no such form say nothing
 */
export function dateEvidence(cells: Iterable<string>): DateEvidence {
  const tally = {
    dayFirst: kind(),
    monthFirst: kind(),
    either: kind(),
    twoDigitYears: kind(),
    serials: kind(),
  };
  const short = { first: new Set<number>(), last: new Set<number>() };
  for (const cell of cells) {
    const text = cell.trim();
    if (text.length > longest) continue;
    if (serial.test(text)) add(tally.serials, cell);
    const parts = figures.exec(text);
    const [first, second] = [Number(parts?.[1]), Number(parts?.[2])];
    if (parts?.[3]?.length === 2 || (parts === null && shortYear.test(text))) add(tally.twoDigitYears, cell);
    if (shortWithHyphens.test(text)) {
      short.first.add(first);
      short.last.add(Number(parts?.[3]));
    }
    if (parts === null || first > 31 || second > 31) continue;
    if (first > 12 && second <= 12) add(tally.dayFirst, cell);
    else if (second > 12 && first <= 12) add(tally.monthFirst, cell);
    else if (first <= 12 && first !== second) add(tally.either, cell);
  }
  // days differ more than years do
  const yearFirst = short.last.size >= 3 && short.first.size * 2 <= short.last.size;
  return { ...tally, order: yearFirst ? "contradictory" : orderOf(tally) };
}

function orderOf({
  dayFirst,
  monthFirst,
  either,
}: Pick<DateEvidence, "dayFirst" | "monthFirst" | "either">): DateEvidence["order"] {
  if (dayFirst.count > 0 && monthFirst.count > 0) return "contradictory";
  if (dayFirst.count > 0) return "day-first";
  if (monthFirst.count > 0) return "month-first";
  return either.count > 0 ? "undecided" : "not-needed";
}

const kind = (): { count: number; first: string | null } => ({ count: 0, first: null });

function add(cells: { count: number; first: string | null }, cell: string): void {
  cells.count += 1;
  cells.first ??= cell;
}
