import { readFileAsGrid } from "../grid/index.js";
import { noRows } from "../text/rows-of-file.js";
import type { ReadSource, SourceFile } from "../text/source-file.js";
import { applyMapping } from "./apply/apply-mapping.js";
import type { Mapping } from "./mapping.js";

/**
 * Opens a file that is not in our columns, by its mapping.
 *
 * @param options sheet: the sheet of a workbook, instead of the one that the mapping names
 */
export async function openMapped(
  { table, file, bytes }: SourceFile,
  { mapping, sheet = mapping.sheet ?? null }: { readonly mapping: Mapping; readonly sheet?: string | null },
): Promise<ReadSource> {
  const { grid, queries } = await readFileAsGrid({ file, bytes }, { sheet });
  if (grid === null) return { table, file, read: noRows(queries) };
  const read = applyMapping(grid, mapping);
  return { table, file, read: { ...read, queries: [...queries, ...read.queries] } };
}
