/** A cell may hold at most so many characters in quotation marks: a longer one lacks its closing mark. */
export const longestQuoted = 1_000_000;

/**
 * Whether a quotation mark that opens a cell is closed at the end of a cell. It is unclosed where the text ends first,
 * broken where the closing mark stands within other text, too long where none comes in time: then no further text can
 * close it.
 */
export type Opened = "closed" | "unclosed" | "broken" | "too long";

/** From the opening mark to just behind the closing one; to the end of the text where it is not closed. */
export interface QuotedCell {
  readonly from: number;
  readonly end: number;
  readonly opened: Opened;
}

/**
 * The quoted cells of a text that begins with a row, in order. One that is not closed as it should be is the last.
 * A mark opens a cell only at its very start (RFC 4180): those inside other cells are passed over at once, however
 * many they are.
 */
export function* quotedCells(text: string, delimiter: string): Generator<QuotedCell> {
  const nextOpening = openings(text, delimiter);
  let mark = nextOpening(0);
  while (mark !== -1) {
    const { end, opened } = closingOf(text, { from: mark + 1, delimiter });
    yield { from: mark, end, opened };
    if (opened !== "closed") return;
    mark = nextOpening(end);
  }
}

/** The next mark that opens a cell, from a place on; -1 where there is none. */
function openings(text: string, delimiter: string): (from: number) => number {
  const starts = [`${delimiter}"`, '\n"', '\r"'].map((start) => ({ start, at: text.indexOf(start) }));
  return (from) => {
    if (from === 0 && text.startsWith('"')) return 0;
    let next = -1;
    for (const known of starts) {
      if (known.at !== -1 && known.at < from) known.at = text.indexOf(known.start, from);
      if (known.at !== -1 && (next === -1 || known.at < next)) next = known.at;
    }
    return next === -1 ? -1 : next + 1;
  };
}

/** The closing mark is one that is not doubled; behind it, but for spaces, the cell must end. */
function closingOf(
  text: string,
  { from, delimiter }: { readonly from: number; readonly delimiter: string },
): Pick<QuotedCell, "end" | "opened"> {
  let mark = text.indexOf('"', from);
  while (mark !== -1 && text[mark + 1] === '"' && mark - from <= longestQuoted)
    mark = text.indexOf('"', mark + 2);
  const isTooLong = (mark === -1 ? text.length : mark) - from > longestQuoted;
  if (isTooLong) return { end: text.length, opened: "too long" };
  if (mark === -1) return { end: text.length, opened: "unclosed" };
  let next = mark + 1;
  while (text[next] === " ") next += 1;
  const after = text[next];
  const endsCell = after === undefined || after === delimiter || after === "\n" || after === "\r";
  return endsCell ? { end: mark + 1, opened: "closed" } : { end: text.length, opened: "broken" };
}
