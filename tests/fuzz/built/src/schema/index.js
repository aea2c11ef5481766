// Tables, fields, terms
export { fieldsOf } from "./field.js";
export { labelOf } from "./labels.js";
export { levelRank } from "./levels.js";
export { tables } from "./tables.js";
export * as terms from "./terms.js";
// Rows on their way in, and the account of them
export { assertAccountBalances, assertAnswersBalance, } from "./accounting.js";
export { answerKinds, answersTable } from "./answers.js";
export { cellReaderOf } from "./cells/read-cell.js";
export { typeRows } from "./type-rows.js";
// Rules about one row
export { checkRow } from "./rules/row-rule.js";
export { rowRules } from "./rules/row-rules.js";
// Doubts, and how they are said
export { queryCodes } from "./data-query.js";
export { groupQueries, groupText } from "./group-queries.js";
export { queryList, timesOf } from "./query-list.js";
export { StopError } from "./stop-error.js";
export { queryText, sayQuery } from "./words.js";
// Files of settings
export { SettingsError } from "./settings/settings-error.js";
export { scanPseudonym } from "./identifying/scan-pseudonym.js";
export { scanText } from "./identifying/scan-text.js";
// Days and text
export { csvText } from "./csv-text.js";
export { dateOfDay, dayNumber, daysBetween } from "./dates.js";
export { tableText } from "./table-text.js";
// The tables for other programs: schemas/ and the data dictionary
export { dataDictionary } from "./data-dictionary.js";
export { jsonSchemaOf } from "./json-schema.js";
export { tableSchemaOf } from "./table-schema.js";
