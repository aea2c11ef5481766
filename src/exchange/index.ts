// The time-to-event dataset

export { type Adtte, type AdtteRow, adtteDefinitions, adtteOf, adtteText, parameters } from "./adtte.js";
export { adtteVariables, censorCodes, type VariableDefinition } from "./adtte-variables.js";

// What describes the files of a deposit

export { csvOnTheWebOf } from "./csv-on-the-web.js";
export { type AboutDeposit, dataPackageOf } from "./data-package.js";
export {
  adtteResource,
  bytesAndHash,
  plainResource,
  type Resource,
  type SchemaField,
  tableResource,
} from "./resources.js";
