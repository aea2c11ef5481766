// Bytes to text, text to cells

export { readTable } from "./table/read-table.js";
export { type DecodedText, decodeText } from "./text/decode-text.js";
export type { RowsOfFile } from "./text/rows-of-file.js";
export { settingsText } from "./text/settings-text.js";

// The single sheet into linked tables

export { type FoldedInjury, foldVisits } from "./cohort/fold-visits.js";
export { type UnfoldedSheet, unfoldSingleSheet } from "./cohort/unfold-single-sheet.js";

// Files to a cohort, with the account of every row

export { StopError } from "../schema/stop-error.js";
export { type EarlierList, earlierList } from "./answers/lines-carried.js";
export type { QueriesList } from "./answers/queries-csv.js";
export type { AnswersFile } from "./answers/read-answers.js";
export type { NamedQuery } from "./answers/register.js";
export { type CohortForSite, type ReadOptions, readCohort, readCohortForSite } from "./cohort/read-cohort.js";
export { type OpenOptions, openSource } from "./table/open-source.js";
export type { CohortSource, ReadSource, SourceFile } from "./text/source-file.js";

// Any sheet as rows of text

export { type Grid, looksLikeTable, readFileAsGrid, type ShapedSheet, shapeSheet } from "./grid/index.js";

// The rules over several rows

export { type LinkRule, linkRows, type UsedRows } from "./rules/link-rule.js";
export { linkRules } from "./rules/link-rules.js";
