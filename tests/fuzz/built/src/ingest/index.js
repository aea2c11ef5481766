// Bytes to text, text to cells
export { decodeText } from "./decode-text.js";
export { readTable } from "./read-table.js";
// The single sheet into linked tables
export { unfoldSingleSheet } from "./unfold-single-sheet.js";
// Files to a cohort, with the account of every row
export { StopError } from "../schema/stop-error.js";
export { openSource } from "./open-source.js";
export { readCohort, readCohortForSite } from "./read-cohort.js";
// The rules over several rows
export { linkRows } from "./rules/link-rule.js";
export { linkRules } from "./rules/link-rules.js";
