import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type FaceWidths, truetypeWidths } from "./truetype-widths.js";

const root = new URL("../../", import.meta.url);
const target = new URL("src/report/text-width-table.ts", root);

/** The text of src/report/text-width-table.ts, made from the two faces in src/report/fonts. */
export function textWidthTable(): string {
  const face = (name: string): FaceWidths =>
    truetypeWidths(readFileSync(new URL(`src/report/fonts/${name}.ttf`, root)));
  const [regular, bold] = [face("Inter-Regular"), face("Inter-Bold")];
  return `// Made by src/maintenance/font-widths.ts from the faces in src/report/fonts; change those, not this.

/** Advance widths in font units: runs of consecutive code points, each its first one and then the widths in order. */
export interface WidthTable {
  readonly unitsPerEm: number;
  readonly missing: number;
  readonly runs: readonly string[];
}

export const regularWidths: WidthTable = ${literal(regular)};

export const boldWidths: WidthTable = ${literal(bold)};
`;
}

function literal(face: FaceWidths): string {
  const runs = runsOf(face).map(({ from, widths }) => `    "${from} ${widths.join(" ")}",\n`);
  return `{\n  unitsPerEm: ${face.unitsPerEm},\n  missing: ${face.missing},\n  runs: [\n${runs.join("")}  ],\n}`;
}

function runsOf(face: FaceWidths): { from: number; widths: number[] }[] {
  const runs: { from: number; widths: number[] }[] = [];
  for (const [code, width] of [...face.widths].sort(([a], [b]) => a - b)) {
    const last = runs.at(-1);
    if (last && last.from + last.widths.length === code) last.widths.push(width);
    else runs.push({ from: code, widths: [width] });
  }
  return runs;
}

/** Writes the table, or with `--check` says whether the one that lies there is up to date. */
function main(words: readonly string[]): void {
  const made = textWidthTable();
  if (!words.includes("--check")) {
    writeFileSync(target, made);
    return;
  }
  if (readFileSync(target, "utf8") === made) return;
  process.stderr.write(
    "src/report/text-width-table.ts differs from the fonts in src/report/fonts.\n  Run: node dist/maintenance/font-widths.js\n",
  );
  process.exitCode = 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main(process.argv.slice(2));
