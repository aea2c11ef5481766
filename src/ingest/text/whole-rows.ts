import { quotedCells } from "./quoted-cells.js";

/** Where the last whole row of a block ends, and whether all that must be known of the quotation marks is known. */
export interface WholeRows {
  readonly end: number;
  /** Whether every quoted cell up to the end is closed; else the block holds one that no further text can close. */
  readonly isBalanced: boolean;
}

/**
 * Finds the last whole row of a block of text when more text follows: it ends behind the last line end that lies
 * outside quoted cells; 0 where no row ends in the block. A quoted cell that the block does not close belongs to what
 * follows, unless it is too long to be a cell or its closing mark stands within other text: then the block is not
 * balanced, whatever follows, and is taken as a whole.
 *
 * @param text begins with a row
 */
export function wholeRows(text: string, delimiter: string): WholeRows {
  // a CR at the very end may be half of a CRLF, and a quotation mark there half of an escaped one
  const certain = text.endsWith("\r") ? text.length - 1 : text.length;
  const outside: Stretch[] = [];
  let from = 0;
  for (const { opened, ...cell } of quotedCells(text, delimiter)) {
    outside.push({ from, to: cell.from });
    if (opened === "too long" || opened === "broken") return { end: text.length, isBalanced: false };
    if (opened === "unclosed" || cell.end >= certain)
      return { end: lastLineEnd(text, outside), isBalanced: true };
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
