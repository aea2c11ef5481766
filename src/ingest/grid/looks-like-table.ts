import { type Grid, isBlankCell } from "./grid.js";

/** Rows looked at. */
const looked = 300;
/** What a key, a certificate or a program begins with. */
const beginnings = /^(?:-----BEGIN |#!)/;
/** The first cell of a line in a system's files of accounts: name, password, number. */
const account = /^[^\s:]+:[^\s:]*:\d*:/;
/** Lines of programs end with a delimiter, which makes a second cell that is blank. */
const fewestFilled = 0.5;

/**
 * Whether a sheet looks like a table: most often its rows have two cells or more, and something stands beyond the
 * first. A workbook always does. Of what is none no cell may be shown: it may be a key, or a file of passwords.
 */
export function looksLikeTable({ rows, format }: Pick<Grid, "rows" | "format">): boolean {
  if (format.kind === "workbook") return true;
  const seen = rows.slice(0, looked).map(({ cells }) => cells);
  const first = seen[0]?.[0] ?? "";
  if (beginnings.test(first)) return false;
  if (seen.filter(([cell = ""]) => account.test(cell)).length * 2 > seen.length) return false;
  const usual = usualWidth(seen);
  const even = seen.filter(({ length }) => length === usual);
  const filled = even.filter((cells) => cells.slice(1).some((cell) => !isBlankCell(cell)));
  return usual >= 2 && filled.length >= fewestFilled * even.length;
}

/** The commonest number of cells; of several the largest. */
function usualWidth(rows: readonly (readonly string[])[]): number {
  const times = new Map<number, number>();
  for (const { length } of rows) times.set(length, (times.get(length) ?? 0) + 1);
  let usual = { width: 0, times: 0 };
  for (const [width, count] of times) {
    if (count > usual.times || (count === usual.times && width > usual.width))
      usual = { width, times: count };
  }
  return usual.width;
}
