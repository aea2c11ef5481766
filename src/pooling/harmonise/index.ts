export { harmonise } from "./harmonise.js";
export { type HarmonisedTables, harmonisedTables } from "./harmonised-tables.js";
