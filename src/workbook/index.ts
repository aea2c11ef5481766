// Tables as workbooks

export { type SheetToWrite, writeWorkbook } from "./write-workbook.js";

// Files as one archive

export { archiveOf } from "./archive.js";
