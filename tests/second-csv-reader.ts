/** Rows of cells, or the row in which quoting is broken. */
export type SecondReading =
  | { readonly rows: readonly (readonly string[])[] }
  | { readonly brokenInRow: number };

interface Cell {
  readonly text: string;
  /** The place behind it. */
  readonly end: number;
}

/**
 * A reader of delimited text, letter by letter, written apart from the toolkit's own: a second opinion on where rows
 * begin and what their cells are. RFC 4180, with LF, CR LF or CR as line ends and spaces behind a closing mark.
 *
 * Broken is a quotation mark that opens a cell and is closed nowhere, or not at the end of a cell; and one behind
 * spaces at the start of a cell that is left open by the rest of its line, or what there is of it before a quoted cell.
 */
export function readSecond(text: string, delimiter: string): SecondReading {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  // the first mark behind spaces speaks for all that follow it on the line
  let judgedTo = 0;
  while (at < text.length || row.length > 0) {
    const cell = text[at] === '"' ? quotedAt(text, at) : plainAt(text, { at, delimiter });
    if (cell === null) return { brokenInRow: rows.length + 1 };
    if (at >= judgedTo && text[at] !== '"' && /^ +"/.test(cell.text)) {
      const stretch = stretchFrom(text, { at, delimiter });
      if ((stretch.split('"').length - 1) % 2 === 1) return { brokenInRow: rows.length + 1 };
      judgedTo = at + stretch.length;
    }
    row.push(cell.text);
    at = cell.end;
    if (text[at] === delimiter) {
      at += 1;
      continue;
    }
    if (at < text.length && !isLineEnd(text[at])) return { brokenInRow: rows.length + 1 };
    rows.push(row);
    row = [];
    at += text[at] === "\r" && text[at + 1] === "\n" ? 2 : 1;
  }
  return { rows };
}

const isLineEnd = (letter: string | undefined): boolean => letter === "\n" || letter === "\r";

/** A cell in quotation marks, with the spaces behind it. */
function quotedAt(text: string, start: number): Cell | null {
  let cell = "";
  for (let at = start + 1; at < text.length; at++) {
    if (text[at] !== '"') cell += text[at];
    else if (text[at + 1] === '"') {
      cell += '"';
      at += 1;
    } else {
      let end = at + 1;
      while (text[end] === " ") end += 1;
      return { text: cell, end };
    }
  }
  return null;
}

function plainAt(text: string, { at, delimiter }: { readonly at: number; readonly delimiter: string }): Cell {
  let end = at;
  while (end < text.length && text[end] !== delimiter && !isLineEnd(text[end])) end += 1;
  return { text: text.slice(at, end), end };
}

/** To the end of the line, or to the next quoted cell. */
function stretchFrom(
  text: string,
  { at, delimiter }: { readonly at: number; readonly delimiter: string },
): string {
  let end = at;
  while (end < text.length && !isLineEnd(text[end])) {
    if (text[end] === delimiter && text[end + 1] === '"') break;
    end += 1;
  }
  return text.slice(at, end);
}
