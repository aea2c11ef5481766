import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import type { Mapping } from "../mapping.js";
import { sourcesOf } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import type { Source } from "./mapped-column.js";

/** Where the columns that a mapping names stand in a file, by the name that the mapping uses. */
export function columnsInFile(
  { columns }: Pick<ShapedSheet, "columns">,
  mapping: Mapping,
): ReadonlyMap<string, Source> {
  const exact = new Map(columns.map((column) => [column.name, column]));
  const compared = new Map([...columns].reverse().map((column) => [comparedText(column.name), column]));
  const named = new Set(Object.values(mapping.columns).flatMap(sourcesOf));
  return new Map(
    [...named].flatMap((name): [string, Source][] => {
      const column = exact.get(name) ?? compared.get(comparedText(name));
      return column === undefined ? [] : [[name, { name: column.name, place: column.place }]];
    }),
  );
}
