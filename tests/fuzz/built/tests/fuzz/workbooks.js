import { strToU8, zipSync } from "fflate";
const contentTypes = `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`;
const packageRelations = `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`;
const bookRelations = `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`;
const book = `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`;
const escaped = (text) => text
    .replaceAll(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd]/g, "?")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;");
/** The XML of a sheet of inline strings. */
export const sheetXml = (cells) => `<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${cells
    .map((row) => `<row>${row.map((cell) => `<c t="inlineStr"><is><t>${escaped(cell)}</t></is></c>`).join("")}</row>`)
    .join("")}</sheetData></worksheet>`;
/** The parts of a minimal workbook (ECMA-376, part 1, section 18). */
export const workbookParts = (sheet) => ({
    "[Content_Types].xml": strToU8(contentTypes),
    "_rels/.rels": strToU8(packageRelations),
    "xl/workbook.xml": strToU8(book),
    "xl/_rels/workbook.xml.rels": strToU8(bookRelations),
    "xl/worksheets/sheet1.xml": strToU8(sheet),
});
export const zipped = (parts) => zipSync(parts, { level: 6, mtime: "1990-01-02" });
