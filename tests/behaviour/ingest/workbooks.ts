import { strToU8, zipSync } from "fflate";

/** A cell of a sheet part as XML within its `<c>`, with its attributes; text and numbers may be given plainly. */
export type SheetCell = string | number | null | { readonly attributes?: string; readonly inner: string };

export interface SheetToMake {
  readonly name: string;
  readonly rows: readonly (readonly SheetCell[])[];
  /** Attributes of `<row>`, by row number. */
  readonly rowAttributes?: Readonly<Record<number, string>>;
  /** What stands before the cells (columns) and behind them (joined cells). */
  readonly before?: string;
  readonly behind?: string;
  readonly state?: string;
}

export interface WorkbookToMake {
  readonly sheets: readonly SheetToMake[];
  /** Own number formats; format n is worn by style n + 1, style 0 is plain. */
  readonly formats?: readonly string[];
  readonly workbookAttributes?: string;
  /** Parts that are put in the place of others, or added. */
  readonly parts?: Readonly<Record<string, string | Uint8Array>>;
}

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packageRelations = "http://schemas.openxmlformats.org/package/2006/relationships";
const start = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';

const escaped = (text: string) =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

const letters = (place: number): string =>
  place < 26
    ? String.fromCharCode(65 + place)
    : letters(Math.floor(place / 26) - 1) + String.fromCharCode(65 + (place % 26));

/** A cell that wears a style: a day number, mostly. */
export const styled = (value: number | string, style: number): SheetCell => ({
  attributes: `s="${style}"`,
  inner: `<v>${value}</v>`,
});

function cellXml(cell: SheetCell, address: string): string {
  if (cell === null) return "";
  if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
  if (typeof cell === "string")
    return `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
  return `<c r="${address}" ${cell.attributes ?? ""}>${cell.inner}</c>`;
}

function sheetXml({ rows, rowAttributes = {}, before = "", behind = "" }: SheetToMake): string {
  const lines = rows.map((cells, place) => {
    const row = place + 1;
    const inner = cells.map((cell, column) => cellXml(cell, `${letters(column)}${row}`)).join("");
    return `<row r="${row}" ${rowAttributes[row] ?? ""}>${inner}</row>`;
  });
  return `${start}<worksheet xmlns="${main}">${before}<sheetData>${lines.join("")}</sheetData>${behind}</worksheet>`;
}

function stylesXml(formats: readonly string[]): string {
  const numFmts = formats.map((code, n) => `<numFmt numFmtId="${164 + n}" formatCode="${escaped(code)}"/>`);
  const xfs = formats.map((_, n) => `<xf numFmtId="${164 + n}" applyNumberFormat="1"/>`);
  return (
    `${start}<styleSheet xmlns="${main}"><numFmts count="${formats.length}">${numFmts.join("")}</numFmts>` +
    `<cellStyleXfs count="1"><xf numFmtId="0"/></cellStyleXfs>` +
    `<cellXfs count="${formats.length + 1}"><xf numFmtId="0"/>${xfs.join("")}</cellXfs></styleSheet>`
  );
}

/** The parts of a minimal workbook after ECMA-376-1:2016 (SpreadsheetML) and ECMA-376-2 (packages). */
export function workbookParts({
  sheets,
  formats = [],
  workbookAttributes = "",
  parts = {},
}: WorkbookToMake): Record<string, Uint8Array> {
  const listed = sheets.map(
    ({ name, state }, n) =>
      `<sheet name="${escaped(name)}" sheetId="${n + 1}" ${state === undefined ? "" : `state="${state}"`} r:id="rId${n + 1}"/>`,
  );
  const related = sheets.map(
    (_, n) =>
      `<Relationship Id="rId${n + 1}" Type="${relations}/worksheet" Target="worksheets/sheet${n + 1}.xml"/>`,
  );
  const styles = `<Relationship Id="rId900" Type="${relations}/styles" Target="styles.xml"/>`;
  const all: Record<string, string | Uint8Array> = {
    "[Content_Types].xml": `${start}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`,
    "_rels/.rels": `${start}<Relationships xmlns="${packageRelations}"><Relationship Id="rId1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `${start}<workbook xmlns="${main}" xmlns:r="${relations}"><workbookPr ${workbookAttributes}/><sheets>${listed.join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `${start}<Relationships xmlns="${packageRelations}">${related.join("")}${styles}</Relationships>`,
    "xl/styles.xml": stylesXml(formats),
    ...Object.fromEntries(sheets.map((sheet, n) => [`xl/worksheets/sheet${n + 1}.xml`, sheetXml(sheet)])),
    ...parts,
  };
  return Object.fromEntries(
    Object.entries(all).map(([name, part]) => [name, typeof part === "string" ? strToU8(part) : part]),
  );
}

/** The bytes of a minimal workbook. */
export const workbookBytes = (workbook: WorkbookToMake): Uint8Array =>
  zipSync(workbookParts(workbook), { mtime: "2024-03-04" });
