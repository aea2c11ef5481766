import type { FileCode } from "../data-query.js";
import { fact, plainly, quoted, type Wording } from "./wording.js";

const thisFile = () => "this file";

/** The words for doubts about a file, its header, or the shape of its rows. */
export const aboutFiles: Record<FileCode, Wording> = {
  "file-missing": plainly(
    "is not there",
    "Check the name and the folder; names are relative to the study file.",
    {
      found: thisFile,
    },
  ),
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
  "wrong-delimiter": {
    expected: () => "is the whole header line: no column name of the table is in it",
    mend: (query) =>
      `Separate columns by commas, semicolons, tabs or |, and begin the header with ${fact(query, "columns")}.`,
  },
  "unbalanced-quote": plainly(
    "opens here and is not closed where a cell ends",
    'Close the quotation mark; write a quotation mark inside a quoted cell twice ("").',
    { found: () => 'a quotation mark (")' },
  ),
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
