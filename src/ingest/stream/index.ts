// A large table without holding it in memory

export { rowNamer } from "../../schema/row-namer.js";
export type { OpenChunks } from "./encoding-of-stream.js";
export type { StreamedRow } from "./row-checker.js";
export { type StreamedTable, type StreamOptions, streamTable } from "./stream-table.js";
