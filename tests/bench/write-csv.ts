// Writes a CSV of so many rows: node write-csv.js ROWS PATH. In a process of its own, whose garbage is not that of the reading.
import { writeFileSync } from "node:fs";
import { csvText } from "./csv.js";

const [rows, path] = process.argv.slice(2) as [string, string];
writeFileSync(path, csvText(Number(rows)));
