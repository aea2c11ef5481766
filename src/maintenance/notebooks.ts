/**
 * Runs every notebook from its committed source and writes its outputs into it.
 * With `--check` nothing is written, and outputs that differ from the committed ones end with exit code 1.
 */
import { readdir, readFile, rm, writeFile } from "node:fs/promises";
import { fileURLToPath, pathToFileURL } from "node:url";
import ts from "typescript";
import { collectorKey, type Shown } from "../notebook/show.js";
import { linesOf, type Notebook, notebookSchema, notebookText, textOf } from "./notebook-file.js";

const folder = new URL("../../notebooks/", import.meta.url);
const cellKey = "__pulleyOutcomesCell";

/** The code cells as one module, with a call before each that says which cell comes next. */
function moduleOf({ cells }: Notebook): string {
  const code = cells
    .map((cell, i) =>
      cell.cell_type === "code" ? `globalThis.${cellKey}(${i});\n${textOf(cell.source)}\n` : "",
    )
    .join("");
  return ts.transpileModule(code, {
    compilerOptions: {
      module: ts.ModuleKind.ESNext,
      target: ts.ScriptTarget.ES2022,
      verbatimModuleSyntax: true,
    },
  }).outputText;
}

/** Runs the cells and gathers what each shows. */
async function outputsOf(notebook: Notebook, name: string): Promise<ReadonlyMap<number, readonly Shown[]>> {
  const outputs = new Map<number, Shown[]>();
  let current = -1;
  Object.assign(globalThis, {
    [cellKey]: (index: number) => {
      current = index;
      outputs.set(index, []);
    },
    [collectorKey]: (shown: Shown) => outputs.get(current)?.push(shown),
  });
  // beside the notebook, so that its relative imports mean the same
  const script = new URL(`.running-${name}.mjs`, folder);
  await writeFile(script, moduleOf(notebook));
  try {
    await import(pathToFileURL(fileURLToPath(script)).href);
  } finally {
    await rm(script, { force: true });
  }
  return outputs;
}

/** The notebook with the outputs of a run in place of the old ones. */
function withOutputs(notebook: Notebook, outputs: ReadonlyMap<number, readonly Shown[]>): Notebook {
  let count = 0;
  const cells = notebook.cells.map((cell, i) => {
    if (cell.cell_type !== "code") return cell;
    count++;
    return { ...cell, execution_count: count, outputs: (outputs.get(i) ?? []).map(displayOf) };
  });
  return { ...notebook, cells };
}

const displayOf = (shown: Shown) => ({
  output_type: "display_data",
  data: Object.fromEntries(Object.entries(shown).map(([type, text]) => [type, linesOf(text)])),
  metadata: {},
});

async function run(name: string, check: boolean): Promise<void> {
  const file = new URL(name, folder);
  const before = await readFile(file, "utf8");
  const notebook = notebookSchema.parse(JSON.parse(before));
  const after = notebookText(withOutputs(notebook, await outputsOf(notebook, name)));
  if (after === before) {
    process.stdout.write(`notebooks/${name}: as committed\n`);
  } else if (check) {
    process.stderr.write(
      `notebooks/${name}: its outputs differ from the committed ones; run "npm run generate" and look at them\n`,
    );
    process.exitCode = 1;
  } else {
    await writeFile(file, after);
    process.stdout.write(`notebooks/${name}: outputs written\n`);
  }
}

const names = (await readdir(folder)).filter((name) => name.endsWith(".ipynb")).sort();
for (const name of names) await run(name, process.argv.includes("--check"));
