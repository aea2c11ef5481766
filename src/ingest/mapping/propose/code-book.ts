import type { Field } from "../../../schema/field.js";
import type { Grid, GridRow } from "../../grid/grid.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { codedReader } from "../apply/coded-text.js";
import { type ColumnRule, isKey, type Mapping, type Undecided } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { tableOf } from "../table-of.js";

/** What the codes of a file stand for: by column of the file, the label of each code. */
export type CodeBook = ReadonlyMap<string, ReadonlyMap<string, string>>;

const longestCode = 12;
/** So many codes must be told of a column. */
const fewestCodes = 2;
/** A code book has few columns; of a wider sheet the first are looked at. */
const mostColumns = 12;

/**
 * Reads a sheet or file as a code book of another sheet: a column with the names of columns, one with codes and one with
 * their labels, in any order, one code a row, where a name that is left blank is that of the row above; or the name of a
 * column beside one cell with all its codes ("1 = left, 2 = right"). Of several ways to read it the one whose codes stand
 * in the sheet most often is taken.
 *
 * @returns null where it tells no codes that stand in the sheet
 */
export function codeBookOf(
  { rows }: Pick<Grid, "rows">,
  { columns, records }: Pick<ShapedSheet, "columns" | "records">,
): CodeBook | null {
  const found = new Map(
    columns.map(({ name, place }) => [
      name,
      new Set(records.map(({ cells }) => comparedText(cells[place] ?? ""))),
    ]),
  );
  const names = new Map(columns.map(({ name }) => [comparedText(name), name]));
  const width = Math.min(mostColumns, Math.max(0, ...rows.map(({ cells }) => cells.length)));
  const places = Array.from({ length: width }, (_, i) => i);
  let best: { readonly book: CodeBook; readonly met: number } | null = null;
  for (const variable of places.filter((place) => namesColumns(rows, { place, names }))) {
    for (const code of places.filter((place) => place !== variable)) {
      for (const label of places.filter((place) => place !== variable)) {
        const book = bookAt(rows, { places: { variable, code, label }, names, found });
        const met = codesMet(book, found);
        if (met > (best?.met ?? 0)) best = { book, met };
      }
    }
  }
  return best?.book ?? null;
}

type Names = ReadonlyMap<string, string>;
type Found = ReadonlyMap<string, ReadonlySet<string>>;

const namesColumns = (
  rows: readonly GridRow[],
  { place, names }: { readonly place: number; readonly names: Names },
): boolean => rows.some(({ cells }) => names.has(comparedText(cells[place] ?? "")));

/** How many codes of a book stand in the columns that it is about. */
const codesMet = (book: CodeBook, found: Found): number =>
  [...book].reduce((sum, [column, codes]) => sum + metIn(codes, found.get(column)), 0);

const metIn = (codes: ReadonlyMap<string, string>, cells: ReadonlySet<string> | undefined): number =>
  [...codes.keys()].filter((code) => cells?.has(code)).length;

/** A book read from three places of each row; from two where the codes of a column stand in one cell. */
function bookAt(
  rows: readonly GridRow[],
  {
    places,
    names,
    found,
  }: {
    readonly places: Readonly<Record<"variable" | "code" | "label", number>>;
    readonly names: Names;
    readonly found: Found;
  },
): CodeBook {
  const book = new Map<string, Map<string, string>>();
  let column: string | undefined;
  for (const { cells } of rows) {
    const [variable = "", code = "", label = ""] = [places.variable, places.code, places.label].map((place) =>
      (cells[place] ?? "").trim(),
    );
    if (variable !== "") column = names.get(comparedText(variable));
    if (column === undefined) continue;
    const told: Pairs = places.code === places.label ? pairsIn(code) : [[code, label]];
    for (const [one, means] of told) {
      if (one === "" || means === "" || one.length > longestCode || !isKey(one)) continue;
      const codes = book.get(column) ?? new Map<string, string>();
      book.set(column, codes.set(comparedText(one), means));
    }
  }
  return new Map(
    [...book].filter(([name, codes]) => codes.size >= fewestCodes && metIn(codes, found.get(name)) > 0),
  );
}

type Pairs = readonly (readonly [code: string, label: string])[];

/** Ways to write several codes with their labels into one cell: what parts them, and what stands between a code and its label. */
const ways = [
  { parts: /\s*[|\n]\s*/, pair: /^([^,=:]+?)\s*[,=:]\s*(.+)$/ },
  { parts: /\s*;\s*/, pair: /^([^=:]+?)\s*[=:]\s*(.+)$/ },
  { parts: /\s*,\s*/, pair: /^([^=:]+?)\s*[=:]\s*(.+)$/ },
] as const;

/** The codes in a cell that lists them with their labels; none where it is no such list. */
function pairsIn(cell: string): Pairs {
  for (const { parts, pair } of ways) {
    const told = cell.split(parts).map((part) => pair.exec(part));
    if (told.length >= fewestCodes && told.every((one) => one !== null))
      return told.map((one) => [one![1]!, one![2]!] as const);
  }
  return [];
}

/** A sheet with the labels in place of the codes, so that its columns are recognised by what they mean. */
export function withLabels(sheet: ShapedSheet, book: CodeBook): ShapedSheet {
  const coded = sheet.columns.flatMap(({ name, place }) => {
    const codes = book.get(name);
    return codes === undefined ? [] : [{ place, codes }];
  });
  if (coded.length === 0) return sheet;
  const records = sheet.records.map((record) => {
    const cells = [...record.cells];
    for (const { place, codes } of coded) {
      const label = codes.get(comparedText(cells[place] ?? ""));
      if (label !== undefined) cells[place] = label;
    }
    return { ...record, cells };
  });
  return { ...sheet, records };
}

/** A mapping that was proposed from labels, for the codes that stand in the file. */
export function forCodes(mapping: Mapping, book: CodeBook): Mapping {
  const codesOf = (rule: ColumnRule | undefined) =>
    typeof rule?.from === "string" ? book.get(rule.from) : undefined;
  const columns = Object.entries(mapping.columns).map(([field, rule]): [string, ColumnRule] => {
    const codes = codesOf(rule);
    if (codes === undefined || rule.values === undefined) return [field, rule];
    const told = Object.entries(rule.values).flatMap(codesFor(codes));
    // the codes that do not stand in this file may stand in the next
    const others = othersOf(codes, tableOf(mapping).fields.find(({ name }) => name === field)!);
    return [field, { ...rule, values: { ...Object.fromEntries(others), ...Object.fromEntries(told) } }];
  });
  const undecided = mapping.undecided.map((question): Undecided => {
    const [first] = question.decides;
    const codes = first?.[2] === "values" ? codesOf(mapping.columns[first[1]!]) : undefined;
    if (codes === undefined) return question;
    const decides = question.decides.flatMap(([key, field, values, label]) =>
      codesFor(codes)([label!, ""]).map(([code]) => [key!, field!, values!, code]),
    );
    return { ...question, decides };
  });
  return { ...mapping, columns: Object.fromEntries(columns), undecided };
}

/** The codes whose label a cell was; a cell that was no label stays. */
const codesFor =
  (codes: ReadonlyMap<string, string>) =>
  ([cell, meaning]: readonly [string, string]): [string, string][] => {
    const own = [...codes].filter(([, label]) => comparedText(label) === comparedText(cell));
    return own.length === 0 ? [[cell, meaning]] : own.map(([code]) => [code, meaning]);
  };

/** The codes of a book whose labels the vocabulary knows, with what they mean. */
function othersOf(codes: ReadonlyMap<string, string>, field: Field): readonly (readonly [string, string])[] {
  if (field.cells === undefined || field.cells === "own-words") return [];
  const read = codedReader(field, { numbered: undefined });
  return [...codes].flatMap(([code, label]) => {
    const meaning = read(label);
    return meaning === null || meaning === "" ? [] : [[code, meaning] as const];
  });
}
