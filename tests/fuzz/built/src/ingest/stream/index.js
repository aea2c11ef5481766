// A large table without holding it in memory
export { streamTable } from "./stream-table.js";
