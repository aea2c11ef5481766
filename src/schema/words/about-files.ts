import type { DataQuery, FileCode } from "../data-query.js";
import { fact, foundWith, plainly, quoted, type Wording } from "./wording.js";

const thisFile = () => "this file";
const splitIt =
  "For a study, divide the rows: a file and a study for each site, or for each span of years; the rows of a person stay together.";
const checkIt = (query: DataQuery) =>
  `To check all of it row by row, whatever its length: pulley-outcomes check FILE --table ${fact(query, "table")}.`;
const sheetFound = foundWith((query) => `other sheets: ${fact(query, "others") || "none"}`);

/** The words for doubts about a file, its header, or the shape of its rows. */
export const aboutFiles: Record<FileCode, Wording> = {
  "table-missing": plainly(
    "are needed and no file was given for them",
    "Give a file of injuries, or one single sheet.",
    { found: () => "the injuries" },
  ),
  "table-twice": {
    found: thisFile,
    expected: (query) => `is a second file for the table ${fact(query, "table")}`,
    mend: () => "Give one file a table; put the rows of several sites below each other, with site_id.",
  },
  "tables-mixed": plainly(
    "was given together with linked tables",
    "Give either the linked tables or the single sheet, not both.",
    { found: () => "a single sheet" },
  ),
  "file-empty": plainly("is empty", "Export the table again, with its header line.", { found: thisFile }),
  "file-header-only": plainly(
    "has a header line and no rows",
    "Export the table again, or leave the file out if there is nothing to report.",
    { found: thisFile, consequence: "It counts as a table without rows." },
  ),
  "file-not-text": {
    found: thisFile,
    expected: (query) => `is not CSV text: ${fact(query, "kind")}`,
    mend: () => 'Open it in the program that made it and save it as "CSV UTF-8".',
  },
  "file-not-utf8": plainly(
    "is not UTF-8 and was read as Windows-1252",
    'Look at letters with accents; to be certain, save the file as "CSV UTF-8".',
    { found: thisFile, consequence: "Its rows are used as read." },
  ),
  "file-too-large": {
    found: thisFile,
    expected: (query) => `is larger than ${fact(query, "limit")} megabytes`,
    mend: () => "Check that it is the right file; if it is, split it.",
  },
  "rows-too-many": {
    found: thisFile,
    expected: (query) =>
      `has ${fact(query, "soFar")} rows or more; a study may have ${fact(query, "most")} rows in a table`,
    mend: (query) => (query.facts.table === undefined ? splitIt : `${checkIt(query)} ${splitIt}`),
  },
  "workbook-other-kind": {
    found: thisFile,
    expected: (query) => `is ${fact(query, "kind")}, which is not read`,
    mend: () => 'Open it in the program that made it and save it as a workbook (.xlsx) or as "CSV UTF-8".',
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
    expected: (query) => `holds ${fact(query, "what")}, more than is read of a workbook`,
    mend: () => 'Delete what lies beyond the table, or save the sheet as "CSV UTF-8" and give that file.',
  },
  "workbook-unsafe": {
    found: thisFile,
    expected: (query) => `holds ${fact(query, "what")}, which no workbook needs and which can do harm`,
    mend: () =>
      "Do not open it if you do not know where it comes from. Else open it in a spreadsheet program and save it again as .xlsx.",
  },
  "sheet-missing": plainly(
    "is no sheet of this workbook",
    "Write the name of the sheet as it stands on its tab.",
    { found: sheetFound },
  ),
  "sheet-empty": plainly("is a sheet without cells", "Write the name of the sheet that holds the table.", {
    found: sheetFound,
  }),
  "sheets-not-read": plainly(
    "is the sheet that is read; others hold something as well",
    "Name the sheet to be read if it is another one.",
    { found: sheetFound, consequence: "The other sheets are not read." },
  ),
  "rows-hidden": {
    found: (query) => `rows ${query.found ?? ""}`,
    expected: (query) => `are hidden in the workbook, ${fact(query, "count")} in all`,
    mend: () => "Show them and look at them; delete those that do not belong to the table.",
    consequence: "They are read like any other.",
  },
  "columns-hidden": {
    found: (query) => `columns ${query.found ?? ""}`,
    expected: (query) => `are hidden in the workbook, ${fact(query, "count")} in all`,
    mend: () => "Show them and look at them.",
    consequence: "They are read like any other.",
  },
  "cells-joined": {
    found: (query) => `a cell joined over rows ${fact(query, "rows")}`,
    expected: () => "gives its value to each of these rows",
    mend: () => "Separate the cells and write the value in each row it is meant for.",
    consequence: "The rows are used so.",
  },
  "wrong-delimiter": {
    // what stands there is not repeated: it may be a line of a file that is no table at all
    found: () => "the first line",
    expected: () => "is not divided into columns, and is no column name of the table",
    mend: (query) =>
      `Separate columns by commas, semicolons, tabs or |, and begin the header with ${fact(query, "columns")}.`,
  },
  "unbalanced-quote": {
    found: () => 'a quotation mark (")',
    expected: (query) =>
      query.facts.longest === undefined
        ? "opens here and is not closed where a cell ends"
        : `opens here and is not closed within ${fact(query, "longest")} characters`,
    mend: () => 'Close the quotation mark; write a quotation mark inside a quoted cell twice ("").',
  },
  "row-without-end": {
    found: () => "this row",
    expected: (query) => `has not ended after ${fact(query, "longest")} characters`,
    mend: () => "Check that the file is a table with one line a row, and export it again.",
  },
  "header-foreign": {
    found: (query) => `the first line, of ${fact(query, "names")} parts,`,
    expected: (query) => `holds no column name of the table ${fact(query, "table")}`,
    mend: (query) =>
      `Check that it is the right file. If its columns have names of your own, translate them: pulley-outcomes fit FILE. The columns of ours begin with ${fact(query, "columns")}.`,
  },
  "header-not-first": {
    found: () => "the first row",
    expected: (query) => `is not the header, which seems to stand in row ${fact(query, "header_row")}`,
    mend: () => "Delete the rows above the header, so that the column names come first.",
  },
  "column-missing": {
    found: () => "this file",
    expected: (query) =>
      `has no column ${quoted(query.column ?? "")}, which the table ${fact(query, "table")} needs`,
    mend: (query) =>
      query.facts.near === undefined
        ? "Add the column."
        : `Did you mean the column ${quoted(fact(query, "near"))}? Rename it.`,
  },
  "column-unknown": {
    found: (query) =>
      query.found === "" ? `column ${fact(query, "place")}, which has no name,` : "this column",
    expected: (query) => `is not a column of the table ${fact(query, "table")}`,
    mend: (query) =>
      query.facts.near === undefined
        ? "Nothing to do if it is meant for you alone."
        : `If you mean ${quoted(fact(query, "near"))}, rename it.`,
    consequence: "The column is not read.",
  },
  "column-twice": plainly(
    "stands twice in the header",
    "Rename or delete one of the two, so that it is clear which is meant.",
    { found: () => "this column" },
  ),
  "row-too-long": {
    expected: (query) => `stands beyond the last of ${fact(query, "columns")} columns`,
    mend: () => "Look for a delimiter inside a cell: put that cell in quotation marks.",
  },
  "row-too-short": {
    found: () => "this row",
    expected: (query) => `ends before ${quoted(fact(query, "missing"))}, a column that must be filled`,
    mend: () => "Look for a line break inside a cell, or fill the missing cells.",
  },
};
