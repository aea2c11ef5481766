import { counted } from "../counted.js";
import type { DataQuery, FileCode } from "../data-query.js";
import { fact, foundWith, plainly, quoted, type Wording } from "./wording.js";

const thisFile = () => "this file";
const splitIt =
  "For a study, divide the rows: one file and one study for each site or for each span of years, with all rows of a person in the same file.";
const checkIt = (query: DataQuery) =>
  `A file of any length can be checked row by row: pulley-outcomes check FILE --table ${fact(query, "table")}.`;
const isOne = ({ facts }: DataQuery): boolean => facts.count === 1;
const hiddenInWorkbook = (query: DataQuery): string =>
  isOne(query)
    ? "is hidden in the workbook"
    : `are hidden in the workbook (${fact(query, "count")} in total)`;
const sheetFound = foundWith((query) => `other sheets: ${fact(query, "others") || "none"}`);

/** The words for queries about a file, its header, or the shape of its rows. */
export const aboutFiles: Record<FileCode, Wording> = {
  "table-missing": plainly(
    "is required, but no file is named for it",
    'Name a file for "injuries" or for "single_sheet" under "data" in the study file.',
    { found: () => "the table of injuries" },
  ),
  "table-twice": {
    found: thisFile,
    expected: (query) => `is a second file for the table ${fact(query, "table")}`,
    correction: () =>
      "Name one file for each table. Put the rows of several sites below one another, and fill in site_id.",
  },
  "tables-mixed": plainly(
    "is named together with linked tables",
    "Name either the linked tables or the single sheet, not both.",
    { found: () => "a single sheet" },
  ),
  "file-empty": plainly("is empty", "Export the table again, including its header line.", {
    found: thisFile,
  }),
  "file-header-only": plainly(
    "has a header line but no rows",
    "Export the table again, or remove the file from the study file if the table has no rows.",
    { found: thisFile, consequence: "The file counts as a table without rows." },
  ),
  "file-not-text": {
    found: thisFile,
    expected: (query) => `is not CSV text: ${fact(query, "kind")}`,
    correction: () => 'Open it in the program that made it and save it as "CSV UTF-8".',
  },
  "file-not-utf8": plainly(
    "is not UTF-8 and was read as Windows-1252",
    'Check the letters with accents. To be certain, save the file as "CSV UTF-8".',
    { found: thisFile, consequence: "The rows are used as they were read." },
  ),
  "file-too-large": {
    found: thisFile,
    expected: (query) => `is larger than ${fact(query, "limit")} megabytes`,
    correction: () => "Check that it is the right file; if it is, split it.",
  },
  "rows-too-many": {
    found: thisFile,
    expected: (query) =>
      `has ${fact(query, "soFar")} rows or more, but a table of a study may have at most ${fact(query, "most")} rows`,
    correction: (query) => (query.facts.table === undefined ? splitIt : `${checkIt(query)} ${splitIt}`),
  },
  "workbook-other-kind": {
    found: thisFile,
    expected: (query) => `is ${fact(query, "kind")}, which cannot be read`,
    correction: () =>
      'Open it in the program that made it and save it as a workbook (.xlsx) or as "CSV UTF-8".',
  },
  "workbook-encrypted": plainly(
    "is encrypted",
    "Open it with its password, remove the password, and save it again as .xlsx; or save the sheet as CSV.",
    { found: thisFile },
  ),
  "workbook-damaged": plainly(
    "is a workbook whose parts cannot be read",
    'Open it in a spreadsheet program and save it again as .xlsx, or save the sheet as "CSV UTF-8".',
    { found: thisFile },
  ),
  "workbook-too-large": {
    found: thisFile,
    expected: (query) => `is too large to be read: it contains ${fact(query, "what")}`,
    correction: () =>
      'Delete everything outside the table, or save the sheet as "CSV UTF-8" and use that file.',
  },
  "workbook-unsafe": {
    found: thisFile,
    expected: (query) => `contains ${fact(query, "what")}, which no workbook needs and which can be harmful`,
    correction: () =>
      "Do not open it if you do not know where it comes from. Otherwise open it in a spreadsheet program and save it again as .xlsx.",
  },
  "sheet-missing": plainly(
    "is not a sheet of this workbook",
    "Write the name of the sheet as it appears on its tab.",
    { found: sheetFound },
  ),
  "sheet-empty": plainly("is an empty sheet", "Write the name of the sheet that contains the table.", {
    found: sheetFound,
  }),
  "sheets-not-read": plainly(
    "is the sheet that is read, but other sheets are not empty either",
    "If another sheet should be read, name it.",
    { found: sheetFound, consequence: "The other sheets are not read." },
  ),
  "rows-hidden": {
    found: (query) => `${isOne(query) ? "row" : "rows"} ${query.found ?? ""}`,
    expected: hiddenInWorkbook,
    correction: () => "Unhide and check all rows; delete what does not belong to the table.",
    consequence: "Hidden rows are read like all others.",
  },
  "columns-hidden": {
    found: (query) => `${isOne(query) ? "column" : "columns"} ${query.found ?? ""}`,
    expected: hiddenInWorkbook,
    correction: () => "Unhide and check all columns.",
    consequence: "Hidden columns are read like all others.",
  },
  "cells-joined": {
    found: (query) => `a cell merged over rows ${fact(query, "rows")}`,
    expected: () => "is read as if its value were written in each of these rows",
    correction: () => "Unmerge the cells, and write the value in each row to which it belongs.",
    consequence: "The rows are used with this value.",
  },
  "wrong-delimiter": {
    // what stands there is not repeated: it may be a line of a file that is no table at all
    found: () => "the first line",
    expected: () => "is not divided into columns and is not a column name of the table",
    correction: (query) =>
      `Separate the columns by commas, semicolons, tabs or |, and begin the header with ${fact(query, "columns")}.`,
  },
  "unbalanced-quote": {
    found: () => 'a quotation mark (")',
    expected: (query) =>
      query.facts.longest === undefined
        ? "opens a cell here but is not closed at the end of the cell"
        : `opens a cell here but is not closed within ${fact(query, "longest")} characters`,
    correction: () => 'Close the quotation mark. Inside a quoted cell, write a quotation mark twice ("").',
  },
  "row-without-end": {
    found: () => "this row",
    expected: (query) => `has not ended after ${fact(query, "longest")} characters`,
    correction: () => "Check that the file is a table with one line for each row, and export it again.",
  },
  "header-foreign": {
    found: (query) => `the first line (${counted(fact(query, "names"), "column", "columns")})`,
    expected: (query) => `contains no column name of the table ${fact(query, "table")}`,
    correction: (query) =>
      `Check that it is the right file. If the columns have your own names, translate them: pulley-outcomes fit FILE. The columns of the table begin with ${fact(query, "columns")}.`,
  },
  "header-not-first": {
    found: () => "the first row",
    expected: (query) => `is not the header, which seems to be row ${fact(query, "header_row")}`,
    correction: () => "Delete the rows above the header, so that the column names come first.",
  },
  "column-missing": {
    found: () => "this file",
    expected: (query) =>
      `has no column ${quoted(query.column ?? "")}, which the table ${fact(query, "table")} needs`,
    correction: (query) =>
      query.facts.near === undefined
        ? "Add the column."
        : `Did you mean the column ${quoted(fact(query, "near"))}? Rename it.`,
  },
  "column-unknown": {
    found: (query) =>
      query.found === "" ? `column ${fact(query, "place")}, which has no name,` : "this column",
    expected: (query) => `is not a column of the table ${fact(query, "table")}`,
    correction: (query) =>
      query.facts.near === undefined
        ? "No action is needed if the column is only for your own use."
        : `If you mean ${quoted(fact(query, "near"))}, rename it.`,
    consequence: "The column is not read.",
  },
  "column-twice": plainly(
    "appears twice in the header",
    "Rename or delete one of the two, so that it is clear which is meant.",
    { found: () => "this column" },
  ),
  "row-too-long": {
    expected: (query) => `is in a cell after the last column (${fact(query, "columns")} in total)`,
    correction: () => "Look for a separator inside a cell, and put that cell in quotation marks.",
  },
  "row-too-short": {
    found: () => "this row",
    expected: (query) => `ends before ${quoted(fact(query, "missing"))}, a column that must be filled`,
    correction: () => "Look for a line break inside a cell, or fill in the missing cells.",
  },
};
