// Bytes to text, text to cells
export { decodeText } from "./decode-text.js";
export { readTable } from "./read-table.js";
// The single sheet into linked tables
export { unfoldSingleSheet } from "./unfold-single-sheet.js";
// Files to a cohort, with the account of every row
export { StopError } from "../schema/stop-error.js";
export { openSource } from "./open-source.js";
export { readCohort, readCohortForSite } from "./read-cohort.js";
// Any sheet as rows of text
export { readFileAsGrid, shapeSheet } from "./grid/index.js";
// A site's own columns into ours
export { applyMapping } from "./mapping/apply/apply-mapping.js";
export { mappingSchema } from "./mapping/mapping.js";
export { openMapped } from "./mapping/open-mapped.js";
export { proposeMapping } from "./mapping/propose/propose.js";
export { MappingError, readMapping } from "./mapping/read-mapping.js";
export { settleQuestion } from "./mapping/settle.js";
export { mappingText } from "./mapping/write-mapping.js";
// The rules over several rows
export { linkRows } from "./rules/link-rule.js";
export { linkRules } from "./rules/link-rules.js";
