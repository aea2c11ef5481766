import { quotedCells } from "./line-ends.js";

/** A cell may hold at most so many characters; a quoted one that is longer lacks its closing mark. */
const longestCell = 1_000_000;

/** Where the last whole row of a block ends, and whether every quoted cell up to there is closed. */
export interface WholeRows {
  readonly end: number;
  readonly isBalanced: boolean;
}

/**
 * Finds the last whole row of a block of text when more text follows: it ends behind the last line end that lies
 * outside quoted cells; 0 where no row ends in the block. A quoted cell that the block does not close belongs to what
 * follows, unless it is too long to be a cell: then the whole block is taken, and is not balanced.
 *
 * @param text begins with a row
 */
export function wholeRows(text: string, delimiter: string): WholeRows {
  // a CR at the very end may be half of a CRLF, and a quotation mark there half of an escaped one
  const certain = text.endsWith("\r") ? text.length - 1 : text.length;
  const outside: Stretch[] = [];
  let from = 0;
  for (const cell of quotedCells(text, delimiter)) {
    outside.push({ from, to: cell.from });
    if (cell.end === null || cell.end >= certain) {
      const isTooLong = text.length - cell.from > longestCell;
      return isTooLong
        ? { end: text.length, isBalanced: false }
        : { end: lastLineEnd(text, outside), isBalanced: true };
    }
    from = cell.end;
  }
  outside.push({ from, to: certain });
  return { end: lastLineEnd(text, outside), isBalanced: true };
}

/** A stretch of text between two quoted cells. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Behind the last line end in the stretches, looked for from the last one; 0 where there is none. */
function lastLineEnd(text: string, stretches: readonly Stretch[]): number {
  for (const { from, to } of stretches.toReversed()) {
    const between = text.slice(from, to);
    const place = Math.max(between.lastIndexOf("\n"), between.lastIndexOf("\r"));
    if (place !== -1) return from + place + 1;
  }
  return 0;
}
