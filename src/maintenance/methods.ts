/**
 * Makes src/statistics/METHODS.md from the list of methods in src/statistics/methods/. With `--check` nothing is written, and a file that
 * differs from what the list gives ends with exit code 1.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Method } from "../statistics/methods/method.js";
import { methods } from "../statistics/methods/methods.js";

const head = `# The methods, where they are and what they are checked against

Made by \`npm run generate\` from \`src/statistics/methods/\`; change it there.

Folders of \`statistics/\` with an index of their own are imported as \`pulley-outcomes/statistics/FOLDER\`. Citations stand once, in \`src/statistics/citations.ts\`; some were written from memory, and where a number depends on one, its test says so. Reference files lie in \`tests/reference/data/\`, each folder with its origin (README.md there) and the script that makes it (\`tests/reference/README.md\`). Relative tolerance 1e-9 for closed forms, 1e-6 for iterative ones, unless the case says why not.
`;

/** The text of METHODS.md. */
export const methodsText = (): string =>
  [head, ...methods.map(({ subject, methods: some }) => `## ${subject}\n\n${tableOf(some)}`)].join("\n");

const tableOf = (some: readonly Method[]): string =>
  [
    "| method | function | file under `src/statistics/` | checked against | published source |",
    "| --- | --- | --- | --- | --- |",
    ...some.map(rowOf),
    "",
  ].join("\n");

function rowOf({ name, functions, detail, files, checkedAgainst, sources, sourceNote }: Method): string {
  const code = (names: readonly string[]) => names.map((one) => `\`${one}\``).join(", ");
  const called = detail === undefined ? code(functions) : `${code(functions)} ${detail}`;
  const published = [...sources, ...(sourceNote === undefined ? [] : [sourceNote])].join("; ");
  return `| ${[name, called, code(files), checkedAgainst, published].join(" | ")} |`;
}

function main(): void {
  const file = new URL("../../src/statistics/METHODS.md", import.meta.url);
  const text = methodsText();
  if (!process.argv.includes("--check")) {
    writeFileSync(file, text);
    return;
  }
  if (readFileSync(file, "utf8") === text) return;
  process.stderr.write(
    "src/statistics/METHODS.md differs from the list of methods.\n  Run: node dist/maintenance/methods.js\n",
  );
  process.exitCode = 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
