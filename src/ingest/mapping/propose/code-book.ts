import type { Grid, GridRow } from "../../grid/grid.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { type ColumnRule, isKey, type Mapping, type Undecided } from "../mapping.js";
import { comparedText } from "../plain-words.js";

/** What the codes of a file stand for: by column of the file, the label of each code. */
export type CodeBook = ReadonlyMap<string, ReadonlyMap<string, string>>;

const longestCode = 12;
/** So many codes must be told of a column. */
const fewestCodes = 2;

/**
 * Reads a sheet or file as a code book of another sheet: three columns next to each other with the name of a column,
 * a code and its label, one code a row; a name that is left blank is that of the row above.
 *
 * @returns null where hardly a row is such a line
 */
export function codeBookOf(
  { rows }: Pick<Grid, "rows">,
  { columns }: Pick<ShapedSheet, "columns">,
): CodeBook | null {
  const names = new Map(columns.map(({ name }) => [comparedText(name), name]));
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  for (let i = 0; i + 2 < width; i++) {
    const book = bookAt(rows, { place: i, names });
    if (book.size > 0) return book;
  }
  return null;
}

function bookAt(
  rows: readonly GridRow[],
  { place, names }: { readonly place: number; readonly names: ReadonlyMap<string, string> },
): CodeBook {
  const book = new Map<string, Map<string, string>>();
  let column: string | undefined;
  for (const { cells } of rows) {
    const [variable = "", code = "", label = ""] = cells.slice(place, place + 3).map((cell) => cell.trim());
    if (variable !== "") column = names.get(comparedText(variable));
    if (column === undefined || code === "" || label === "" || code.length > longestCode || !isKey(code))
      continue;
    const codes = book.get(column) ?? new Map<string, string>();
    book.set(column, codes.set(comparedText(code), label));
  }
  return new Map([...book].filter(([, codes]) => codes.size >= fewestCodes));
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
    return [
      field,
      { ...rule, values: Object.fromEntries(Object.entries(rule.values).flatMap(codesFor(codes))) },
    ];
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
