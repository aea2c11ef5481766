import type { Field } from "../../../schema/field.js";
import { oneTerm } from "../cell-words.js";
import { cleanCell, type Repair } from "../look-alikes.js";
import type { ColumnRule, Mapping } from "../mapping.js";
import { sourcesOf } from "../mapping.js";
import { type CellRead, mappedReader } from "./cell-reader.js";

/** A column of the file that a rule reads, where it is there. */
export interface Source {
  readonly name: string;
  readonly place: number;
}

/** What a row says for one column of ours. */
export interface MappedCell extends CellRead {
  /** The columns of the file that it was read from, joined with ` / `. */
  readonly column: string;
  /** What stands there, joined the same way. */
  readonly found: string;
  readonly repairs: readonly Repair[];
  /** A further column that says something else. */
  readonly differs: { readonly column: string; readonly found: string } | null;
}

/** A column of ours with the way its cells are made from a row of the file. */
export interface MappedColumn {
  readonly field: Field;
  readonly rule: ColumnRule;
  readonly sources: readonly Source[];
  /** `injury` is the day of the injury of the row in our text; only times since then need it. */
  readonly read: (row: readonly string[], injury: string) => MappedCell;
}

/** Prepares the reading of one column of ours. */
export function mappedColumn(
  field: Field,
  options: {
    readonly rule: ColumnRule;
    readonly mapping: Mapping;
    readonly places: ReadonlyMap<string, Source>;
  },
): MappedColumn {
  const { rule, places } = options;
  const sources = sourcesOf(rule).flatMap((name) => places.get(name) ?? []);
  return { field, rule, sources, read: readerOf(field, { ...options, sources }) };
}

type ReadRow = MappedColumn["read"];
interface ReaderOptions {
  readonly rule: ColumnRule;
  readonly mapping: Mapping;
  readonly places: ReadonlyMap<string, Source>;
  readonly sources: readonly Source[];
}

function readerOf(field: Field, options: ReaderOptions): ReadRow {
  const { rule } = options;
  if (rule.constant !== undefined) return constantReader(rule.constant, field);
  if (rule.ticked !== undefined) return tickReader(field, { ...options, ticked: rule.ticked });
  if (rule.latest_of !== undefined) return latestReader(field, options);
  return firstFilledReader(field, options);
}

const nothing = { text: "", problem: null, newWord: null, repairs: [], differs: null } as const;

const constantReader =
  (constant: string, { name }: Field): ReadRow =>
  () => ({ ...nothing, text: constant, column: name, found: constant });

/** Of several columns the first that is filled; another that says something else is mentioned. */
function firstFilledReader(field: Field, { rule, mapping, sources }: ReaderOptions): ReadRow {
  const read = mappedReader(field, { rule, mapping });
  const columns = sources.map(({ name }) => name).join(" / ");
  const isBirth = rule.born_on !== undefined || rule.born_in !== undefined;
  return (row, injury) => {
    const cells = sources
      .map(({ name, place }) => ({ name, found: (row[place] ?? "").trim(), ...cleanCell(row[place] ?? "") }))
      .filter(({ text }) => text !== "");
    const first = cells[0];
    if (first === undefined) return { ...nothing, column: columns, found: "" };
    const own = read(first.text, injury);
    const other = cells.slice(1).find(({ text }) => read(text, injury).text !== own.text);
    return {
      ...own,
      column: first.name,
      // a birth goes no further than the age
      found: isBirth ? own.text : first.found,
      repairs: first.repairs,
      differs: other === undefined ? null : { column: other.name, found: other.found },
    };
  };
}

/** The latest day of several columns; cells that are no day do not count. */
function latestReader(field: Field, { rule, mapping, sources }: ReaderOptions): ReadRow {
  const read = mappedReader({ ...field, kind: "date" }, { rule, mapping });
  const columns = sources.map(({ name }) => name).join(" / ");
  return (row) => {
    let latest: MappedCell = { ...nothing, column: columns, found: "" };
    for (const { name, place } of sources) {
      const { text, repairs } = cleanCell(row[place] ?? "");
      const day = text === "" ? "" : read(text, "").text;
      if (/^\d{4}-\d{2}-\d{2}$/.test(day) && day > latest.text) {
        latest = { ...nothing, text: day, column: name, found: text, repairs };
      }
    }
    return latest;
  };
}

/** Entries ticked in columns of their own, or their extents where that is what the field holds. */
function tickReader(
  field: Field,
  { ticked, places }: ReaderOptions & { readonly ticked: Readonly<Record<string, string>> },
): ReadRow {
  const entries = Object.entries(ticked).flatMap(([entry, name]) => {
    const source = places.get(name);
    return source === undefined ? [] : [{ entry, ...source }];
  });
  const isExtents = field.name.endsWith("extents");
  return (row) => {
    const cells = entries.map((each) => ({ ...each, ...cleanCell(row[each.place] ?? "") }));
    const filled = cells.filter(({ text }) => text !== "" && oneTerm(text, { kind: "yes_no" }) !== "no");
    const column = entries.map(({ name }) => name).join(" / ");
    const found = cells.map(({ text }) => text).join(" / ");
    const repairs = cells.flatMap((cell) => cell.repairs);
    const unread = filled.find(
      ({ text }) => oneTerm(text, { kind: "yes_no" }) === null && extentOf(text) === null,
    );
    if (unread !== undefined)
      return { ...nothing, column: unread.name, found: unread.text, text: unread.text, repairs };
    const names = filled.map(({ entry }) => entry).join("|");
    const text = isExtents
      ? extentsIn(
          filled.map((cell) => extentOf(cell.text)),
          found,
        )
      : names;
    return { ...nothing, column, found, text, repairs };
  };
}

/** Blank where pulleys are ticked only; as it is written where some have an extent and some have none. */
function extentsIn(extents: readonly (string | null)[], written: string): string {
  const known = extents.filter((extent) => extent !== null);
  return known.length === 0 ? "" : known.length === extents.length ? known.join("|") : written;
}

const extentOf = (cell: string): string | null => oneTerm(cell, { kind: "extent" });

/** The cells of a record, each with its column; the injury is read first, since times are counted from it. */
export function columnsRead(
  cells: readonly string[],
  columns: readonly MappedColumn[],
): readonly { readonly field: Field; readonly rule: ColumnRule; readonly cell: MappedCell }[] {
  const injury = columns.find(({ field }) => field.when === "injury")?.read(cells, "").text ?? "";
  return columns.map(({ field, rule, read }) => ({ field, rule, cell: read(cells, injury) }));
}
