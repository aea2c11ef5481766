import { quotedCells } from "./line-ends.js";

/** A cell may hold at most so many characters; a quoted one that is longer lacks its closing mark. */
const longestCell = 1_000_000;

/**
 * Where the last whole row of a block of text ends, when more text follows: behind the last line end that lies outside
 * quoted cells. 0 where no row ends in the block. A quoted cell that the block does not close belongs to what follows;
 * one that is too long to be a cell is left to `evenLineEnds`, which says where it opens.
 *
 * @param text begins with a row
 */
export function endOfWholeRows(text: string, delimiter: string): number {
  // a CR at the very end may be half of a CRLF, and a quotation mark there half of an escaped one
  const last = text.length - 1;
  const certain = text.endsWith("\r") ? last : text.length;
  let end = 0;
  let from = 0;
  for (const cell of quotedCells(text, delimiter)) {
    end = Math.max(end, lineEndBetween(text, { from, to: cell.from }));
    if (cell.end === null || cell.end >= certain) {
      return text.length - cell.from > longestCell ? text.length : end;
    }
    from = cell.end;
  }
  return Math.max(end, lineEndBetween(text, { from, to: certain }));
}

/** Behind the last LF or CR between two places; 0 where there is none. */
function lineEndBetween(text: string, { from, to }: { readonly from: number; readonly to: number }): number {
  const between = text.slice(from, to);
  const place = Math.max(between.lastIndexOf("\n"), between.lastIndexOf("\r"));
  return place === -1 ? 0 : from + place + 1;
}
