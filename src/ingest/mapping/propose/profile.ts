import type { Concept } from "../../../schema/languages/languages.js";
import type { GridRow } from "../../grid/grid.js";
import type { SheetColumn } from "../../grid/shape/column-names.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { cleanCell } from "../look-alikes.js";
import { looksLikeDate } from "./date-shapes.js";
import { type ReadName, readName } from "./read-name.js";

/** Beyond so many records nothing new is learnt about a column. */
export const recordsLookedAt = 5_000;

/** The cells of so many columns are looked at. */
const columnsLookedAt = 1_000;

/** A column of the file with what stands in it. */
export interface Profile extends SheetColumn {
  readonly read: ReadName;
  /** Cells record by record, blank ones as "". */
  readonly cells: readonly string[];
  readonly filled: readonly string[];
  /** Different cells and how often each stands there, the most frequent first. */
  readonly distinct: ReadonlyMap<string, number>;
  /** Those of the different cells that are written like dates. */
  readonly dates: ReadonlySet<string>;
}

/** The columns of a sheet with their cells, as a reader sees them. */
export function profilesOf({
  columns,
  records,
}: Pick<ShapedSheet, "columns" | "records">): readonly Profile[] {
  const rows = records.slice(0, recordsLookedAt);
  return columnsToLookAt(columns).map(({ read, ...column }) => {
    const cells = rows.map(cleanedIn(column.place));
    const filled = cells.filter((cell) => cell !== "");
    const distinct = countsOf(filled);
    const dates = new Set([...distinct.keys()].filter(looksLikeDate));
    return { ...column, read, cells, filled, distinct, dates };
  });
}

/** The cell of a row at a place as a reader sees it; each different text is looked at once. */
function cleanedIn(place: number): (row: GridRow) => string {
  const cleaned = new Map<string, string>();
  return ({ cells }) => {
    const cell = cells[place] ?? "";
    if (cell === "") return "";
    const known = cleaned.get(cell);
    if (known !== undefined) return known;
    const { text } = cleanCell(cell);
    cleaned.set(cell, text);
    return text;
  };
}

/** In the order of the file; of more than are looked at, those first whose names speak of something. */
function columnsToLookAt(columns: readonly SheetColumn[]): readonly (SheetColumn & Pick<Profile, "read">)[] {
  const named = columns.map((column) => ({ ...column, read: readName(column.name, column.unit) }));
  if (named.length <= columnsLookedAt) return named;
  const speaking = named.filter(({ read }) => read.segments.length > 0);
  const silent = named.filter(({ read }) => read.segments.length === 0);
  const chosen = new Set([...speaking, ...silent].slice(0, columnsLookedAt));
  return named.filter((column) => chosen.has(column));
}

function countsOf(cells: readonly string[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const cell of cells) counts.set(cell, (counts.get(cell) ?? 0) + 1);
  return new Map([...counts].sort((one, other) => other[1] - one[1]));
}

/** How many filled cells of a column pass a test; each different cell is looked at once. */
export function countPassing(
  { distinct }: Pick<Profile, "distinct">,
  test: (cell: string) => boolean,
): number {
  let passing = 0;
  for (const [cell, times] of distinct) if (test(cell)) passing += times;
  return passing;
}

/** Whether so large a share of the filled cells pass a test; stops where too many have failed. */
export function passesAtLeast(
  { distinct, filled }: Pick<Profile, "distinct" | "filled">,
  leastShare: number,
  test: (cell: string) => boolean,
): boolean {
  let possible = filled.length;
  for (const [cell, times] of distinct) {
    if (!test(cell)) possible -= times;
    if (possible / filled.length < leastShare) return false;
  }
  return filled.length > 0;
}

/** An example cell, for a person to recognise a column by; none of what is too personal to be written down. */
export function exampleOf(profile: Pick<Profile, "distinct" | "read"> | undefined): { example?: string } {
  const cell = profile?.distinct.keys().next().value;
  return cell === undefined || profile === undefined || speaksOf(profile, ["birth"]) ? {} : { example: cell };
}

/** Whether the name of a column speaks of one of some things. */
export const speaksOf = ({ read }: Pick<Profile, "read">, concepts: readonly Concept[]): boolean =>
  read.segments.some((segment) => concepts.some((concept) => segment.concepts.has(concept)));

/** What stands in a column, in words with an example, for a person who decides that it is not needed. */
export function whatItHolds(profile: Profile): string {
  const { filled, distinct, dates } = profile;
  if (filled.length === 0) return "empty";
  const isDated = countPassing(profile, (cell) => dates.has(cell)) >= filled.length * 0.8;
  const { example } = exampleOf(profile);
  const shown =
    example === undefined ? "" : `"${example.length > 24 ? `${example.slice(0, 23)}…` : example}"`;
  const more = distinct.size > 1 ? " ..." : "";
  return `${isDated ? "dates" : ""}${isDated && shown !== "" ? ", " : ""}${shown === "" ? "" : shown + more}`;
}
