import { type Content, html, type Safe } from "../escape.js";

export interface Column {
  readonly head: Content;
  /** Numbers are set right, words left. */
  readonly align?: "words" | "numbers";
}

/** A row of cells, the first of which names the row. */
export type Row = readonly Content[];

/** Rows under a heading of their own; without a heading they stand alone. */
export interface RowGroup {
  readonly heading: string | null;
  readonly rows: readonly Row[];
}

export interface TableParts {
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly groups: readonly RowGroup[];
  /** Beneath the table. */
  readonly note?: Content;
}

/** A note beneath a table; none where there are no words. */
export const noteOf = (words: string): Pick<TableParts, "note"> => (words === "" ? {} : { note: words });

/**
 * A table with caption, column heads and row heads, in a box that scrolls sideways by itself on a narrow screen.
 * A table without rows says so in one cell.
 */
export function table({ caption, columns, groups, note = null }: TableParts): Safe {
  const length = groups.reduce((sum, { rows }) => sum + rows.length, 0);
  const bodies =
    length > 0
      ? groups.filter(({ rows }) => rows.length > 0).map((group) => body(group, columns))
      : html`<tbody><tr><td colspan="${columns.length}">Nothing to show.</td></tr></tbody>`;
  const heads = columns.map(headOf);
  return html`<div class="${length <= shortTable ? "table-box whole" : "table-box"}" role="region" aria-label="${caption}" tabindex="0">
<table>
<caption>${caption}</caption>
<thead><tr>${heads}</tr></thead>
${bodies}
</table>
</div>
${note === null ? null : html`<p class="note">${note}</p>\n`}`;
}

/** A head without words is no head to anybody who hears the table. */
const headOf = (column: Column): Safe =>
  column.head === ""
    ? html`<td${classes(null, column)}></td>`
    : html`<th scope="col"${classes(null, column)}>${column.head}</th>`;

function body({ heading, rows }: RowGroup, columns: readonly Column[]): Safe {
  const head =
    heading === null
      ? null
      : html`<tr class="group"><th scope="rowgroup" colspan="${columns.length}">${heading}</th></tr>\n`;
  return html`<tbody>
${head}${rows.map((row) => tableRow(row, columns))}</tbody>
`;
}

function tableRow([name = null, ...cells]: Row, columns: readonly Column[]): Safe {
  const rest = cells.map((cell, i) => html`<td${classes(cell, columns[i + 1])}>${cell}</td>`);
  return html`<tr><th scope="row"${classes(name, columns[0])}>${name}</th>${rest}</tr>\n`;
}

/** Up to this many rows a table is printed on one page. */
const shortTable = 16;

/** Up to this many characters a cell stays on one line. */
const shortText = 22;

function classes(cell: Content, column: Column | undefined): Safe | null {
  const names = [
    ...(column?.align === "numbers" ? ["number"] : []),
    ...(typeof cell === "string" && cell.length <= shortText ? ["short"] : []),
  ];
  return names.length === 0 ? null : html` class="${names.join(" ")}"`;
}
