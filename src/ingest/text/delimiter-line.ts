/** A line before all others that tells a spreadsheet the delimiter; it does not count as a row. */
export const delimiterLine = /^sep=(.)(?:\r\n?|\n|$)/;
