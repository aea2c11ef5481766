import { counted } from "../../../schema/counted.js";
import { oneLine } from "../../../schema/hidden-characters.js";
import { readFileAsGrid, type ShapedSheet } from "../../grid/index.js";
import { type CodeBook, codeBookOf } from "../propose/code-book.js";
import { SheetError } from "./sheet-error.js";

/** A code book and where it was found. */
export interface FoundBook {
  readonly codes: CodeBook;
  readonly where: string;
}

/** A file that says what codes stand for. */
export interface FileOfCodes {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** Of larger workbooks only the first sheets are looked at. */
const mostSheets = 20;

/**
 * What the codes of a sheet stand for: from the file that is named for it, or from another sheet of the workbook that
 * says it by itself.
 *
 * @throws SheetError where the file that is named does not say it
 */
export async function codesFor(
  sheet: ShapedSheet,
  {
    source,
    sheets,
    codes,
  }: {
    readonly source: { readonly file: string; readonly bytes: Uint8Array };
    /** Other sheets of the workbook. */
    readonly sheets: readonly string[];
    /** The file that is named for it. */
    readonly codes?: FileOfCodes;
  },
): Promise<FoundBook | null> {
  if (codes !== undefined) return bookInFile(codes, sheet);
  for (const name of sheets.slice(0, mostSheets)) {
    const { grid } = await readFileAsGrid(source, { sheet: name });
    const found = grid === null ? null : codeBookOf(grid, sheet);
    if (found !== null) return { codes: found, where: `sheet "${oneLine(name)}"` };
  }
  return null;
}

async function bookInFile({ file, bytes }: FileOfCodes, sheet: ShapedSheet): Promise<FoundBook> {
  const { grid } = await readFileAsGrid({ file, bytes });
  const found = grid === null ? null : codeBookOf(grid, sheet);
  if (found !== null) return { codes: found, where: oneLine(file) };
  throw new SheetError(
    `${oneLine(file)}: it says nothing about the codes of the file.\n  Write three columns: the name of a column as in the header of the file, a code as it is written in the file, and its meaning; one code a row. Or write the name of a column and beside it, in one cell, 1 = left, 2 = right.`,
  );
}

/** Which codes are read by the book. */
export const bookLine = ({ codes, where }: FoundBook): string =>
  `Codes are read by ${where}: ${[...codes].map(([column, own]) => `${oneLine(column)} (${counted(own.size, "code", "codes")})`).join(", ")}`;
