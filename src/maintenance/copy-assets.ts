import { cpSync, mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Puts beside the compiled code what the compiler leaves behind: the fonts. Run by `npm run build`. */
const from = new URL("../../src/report/fonts/", import.meta.url);
const to = new URL("../report/fonts/", import.meta.url);

mkdirSync(to, { recursive: true });
cpSync(fileURLToPath(from), fileURLToPath(to), { recursive: true });
