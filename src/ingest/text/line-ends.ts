import { type Opened, quotedCells } from "./quoted-cells.js";

/** Text whose rows all end in LF, or the row in which a quotation mark opens that is not closed as it should be. */
export type EvenText =
  | { readonly text: string }
  | { readonly openedInRow: number; readonly fault: Exclude<Opened, "closed"> };

/**
 * Makes all line ends outside quoted cells LF (inside they are the cell's own), and finds quotation marks that are
 * not closed at the end of a cell. A quotation mark opens a cell only at its very start, as in RFC 4180; elsewhere
 * it is an ordinary character, but for one behind spaces whose text would run over the end of the line.
 */
export function evenLineEnds(text: string, delimiter: string): EvenText {
  if (!text.includes('"')) return { text: text.includes("\r") ? lf(text) : text };
  const outside: string[] = [];
  const pieces: string[] = [];
  const stray = strayOpening(delimiter);
  let from = 0;
  const brokenIn = (between: string): EvenText | null => {
    const before = lf(between);
    const at = stray(before);
    outside.push(at === null ? before : before.slice(0, at));
    pieces.push(before);
    return at === null ? null : { openedInRow: countLineEnds(outside) + 1, fault: "unclosed" };
  };
  for (const { opened, ...cell } of quotedCells(text, delimiter)) {
    const broken = brokenIn(text.slice(from, cell.from));
    if (broken !== null) return broken;
    if (opened !== "closed") return { openedInRow: countLineEnds(outside) + 1, fault: opened };
    pieces.push(text.slice(cell.from, cell.end));
    from = cell.end;
    // the parser takes spaces behind a closing mark at the end of the text for a part of the cell
    while (text[from] === " ") from += 1;
  }
  return brokenIn(text.slice(from)) ?? { text: pieces.join("") };
}

/**
 * Looks in text outside quoted cells for a mark behind spaces at the start of a cell that is left open by the rest of
 * its line, or what there is of it before a quoted cell: whoever wrote it meant a quoted cell, and its further lines would be taken for rows. Null where there is
 * none.
 */
function strayOpening(delimiter: string): (text: string) => number | null {
  const behindSpaces = new RegExp(`(?:^|[\\n${delimiter}]) +"[^\\n]*`, "g");
  return (text) => {
    if (!text.includes(' "')) return null;
    for (const { 0: rest, index } of text.matchAll(behindSpaces)) {
      if ((rest.split('"').length - 1) % 2 === 1) return index + rest.indexOf('"');
    }
    return null;
  };
}

const lf = (text: string): string => (text.includes("\r") ? text.replaceAll(/\r\n?/g, "\n") : text);

const countLineEnds = (pieces: readonly string[]): number =>
  pieces.reduce((count, piece) => count + piece.split("\n").length - 1, 0);
