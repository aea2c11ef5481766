// A large table without holding it in memory

export type { OpenChunks } from "./encoding-of-stream.js";
export { type StreamedTable, type StreamOptions, streamTable } from "./stream-table.js";
