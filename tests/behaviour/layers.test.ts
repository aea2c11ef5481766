import { builtinModules } from "node:module";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { importsOf, layerOf, meant, parsed, type SourceFile, sourceFiles } from "./source-tree.js";

const everything = [
  "schema",
  "ingest",
  "cohort",
  "privacy",
  "exchange",
  "statistics",
  "study",
  "pooling",
  "synthetic",
  "words",
  "charts",
  "report",
  "workbook",
  "run",
  "workbench",
  "cli",
  "notebook",
  "maintenance",
] as const;
type Layer = (typeof everything)[number];

/** Which folder may import which. What is not listed is not allowed; a folder may always import itself. */
const mayImport: Record<Layer, readonly Layer[]> = {
  schema: [],
  statistics: [],
  ingest: ["schema"],
  cohort: ["schema"],
  privacy: ["schema"],
  exchange: ["schema", "cohort"],
  study: ["schema", "cohort", "statistics"],
  pooling: ["schema", "cohort", "statistics", "study"],
  synthetic: ["schema", "cohort", "statistics"],
  words: ["schema", "statistics", "study", "pooling"],
  charts: ["study", "pooling", "words"],
  report: ["schema", "study", "pooling", "words", "charts"],
  workbook: ["schema"],
  run: ["schema", "ingest", "privacy", "study", "pooling", "words", "report"],
  workbench: [
    "schema",
    "ingest",
    "cohort",
    "privacy",
    "study",
    "pooling",
    "synthetic",
    "words",
    "report",
    "workbook",
    "run",
  ],
  cli: everything,
  notebook: [],
  maintenance: everything,
};

/**
 * Imports that may be of types only, but for one folder: charts and words say what the results hold, they compute none.
 * What a measure is (its null value, its scale, which side is better) they read from where the measure is computed.
 */
const typesOnly: readonly { readonly from: Layer; readonly of: Layer; readonly butFor: string }[] = [
  { from: "charts", of: "study", butFor: "study/measures/index.js" },
  { from: "words", of: "study", butFor: "study/measures/index.js" },
  { from: "charts", of: "pooling", butFor: "" },
  { from: "words", of: "pooling", butFor: "" },
];

/** Imports of one file only: words take the published sources of the methods, and nothing that computes. */
const ofOneFile: readonly (readonly [from: Layer, of: Layer, file: string])[] = [
  ["words", "statistics", "statistics/citations.js"],
];

/** What runs in a browser as well: nothing of Node, nothing that compiles text to code. */
const browserSafe: readonly Layer[] = [
  "schema",
  "ingest",
  "cohort",
  "privacy",
  "exchange",
  "statistics",
  "study",
  "pooling",
  "synthetic",
  "words",
  "charts",
  "workbook",
  "run",
  "workbench",
];
/** What compiles text to code is for notebooks: no command may need it. */
const withoutCompiling = (path: string) => layerOf(path) !== "maintenance";
const compilesText = "arquero";

const isNode = (from: string) => from.startsWith("node:") || builtinModules.includes(from.split("/")[0]!);
const isBrowserSafe = (path: string) => browserSafe.some((layer) => layer === layerOf(path));
const isIndex = (path: string) => path === "index.ts" || path.endsWith("/index.ts");

/** Imports that reach where they may not, as sentences. */
function trespasses(file: SourceFile): readonly string[] {
  const here = layerOf(file.path) as Layer;
  return importsOf(file).flatMap(({ from, typesOnly: types }) => {
    if (!from.startsWith(".")) return foreign(file.path, from);
    const target = meant(file.path, from);
    const there = layerOf(target) as Layer;
    if (there === here) return [];
    if (!mayImport[here].includes(there))
      return [`${file.path} imports ${from}: ${here} may not use ${there}`];
    const only = ofOneFile.find(([a, b]) => a === here && b === there)?.[2] ?? target;
    if (target !== only) return [`${file.path} imports ${from}: ${here} may use ${only} of ${there} only`];
    const valueToo =
      !types && typesOnly.some((rule) => rule.from === here && rule.of === there && rule.butFor !== target);
    return valueToo ? [`${file.path} imports ${from}: ${here} may use types of ${there} only`] : [];
  });
}

function foreign(path: string, from: string): readonly string[] {
  if (isBrowserSafe(path) && isNode(from)) {
    return [`${path} imports ${from}: ${layerOf(path)} must run without Node`];
  }
  return withoutCompiling(path) && from.split("/")[0] === compilesText
    ? [`${path} imports ${from}, which compiles text to code`]
    : [];
}

/** Statements of an index that are no explicit export from another file. */
function logicOf({ path, tree }: SourceFile): readonly string[] {
  return tree.statements
    .filter((each) => !ts.isExportDeclaration(each) || !each.moduleSpecifier || !each.exportClause)
    .map((each) => `${path}: ${each.getText().split("\n")[0]}`);
}

const inLayers = sourceFiles.filter(({ path }) => layerOf(path) !== "");

describe("the layers of src", () => {
  it("are the folders that the table names, and no others", () => {
    const unknown = new Set(inLayers.map(({ path }) => layerOf(path)));
    for (const layer of everything) unknown.delete(layer);
    expect([...unknown]).toEqual([]);
    expect(inLayers.length).toBeGreaterThan(50);
  });

  it.each(everything)("%s imports only from the layers below it", (layer) => {
    const files = inLayers.filter(({ path }) => layerOf(path) === layer);
    expect(files.flatMap(trespasses)).toEqual([]);
  });

  it("have an index that holds explicit exports and nothing else", () => {
    expect(sourceFiles.filter(({ path }) => isIndex(path)).flatMap(logicOf)).toEqual([]);
  });
});

describe("what these checks find", () => {
  it.each([
    { path: "schema/a.ts", text: 'import { b } from "../cohort/b.js";' },
    { path: "statistics/survival/a.ts", text: 'import type { B } from "../../schema/b.js";' },
    { path: "cohort/a.ts", text: 'export { b } from "../study/b.js";' },
    { path: "study/a.ts", text: 'const b = await import("../report/b.js");' },
    { path: "study/a.ts", text: 'let b: import("../charts/b.js").B;' },
    { path: "report/a.ts", text: 'import { b } from "../statistics/index.js";' },
    { path: "charts/a.ts", text: 'import { b } from "../study/b.js";' },
    { path: "words/a.ts", text: 'import { b } from "../study/b.js";' },
    { path: "words/a.ts", text: 'import { b } from "../statistics/index.js";' },
    { path: "words/figures/a.ts", text: 'import type { B } from "../../charts/b.js";' },
    { path: "schema/a.ts", text: 'import { b } from "../words/b.js";' },
    { path: "charts/a.ts", text: 'import { type A, b } from "../study/b.js";' },
    { path: "charts/a.ts", text: 'import { b } from "../study/measures/b.js";' },
    { path: "charts/a.ts", text: 'import "../study/b.js";' },
    { path: "charts/a.ts", text: 'import * as b from "../study/b.js";' },
    { path: "ingest/a.ts", text: 'import { readFileSync } from "node:fs";' },
    { path: "ingest/a.ts", text: 'import { readFileSync } from "fs";' },
    { path: "synthetic/a.ts", text: 'import { readFile } from "fs/promises";' },
    { path: "study/a.ts", text: 'import { table } from "arquero";' },
    { path: "report/a.ts", text: 'const library = await import("arquero");' },
    { path: "cli/a.ts", text: 'import { table } from "arquero";' },
  ])("$path may not hold: $text", ({ path, text }) => {
    expect(trespasses(parsed(path, text))).toHaveLength(1);
  });

  it.each([
    { path: "charts/a.ts", text: 'import type { B } from "../study/b.js";' },
    { path: "charts/a.ts", text: 'import { type B, type C } from "../study/b.js";' },
    { path: "charts/a.ts", text: 'export type { B } from "../study/b.js";' },
    { path: "charts/a.ts", text: 'import { measureOf } from "../study/measures/index.js";' },
    { path: "cohort/a.ts", text: 'import { b } from "../schema/b.js";' },
    { path: "words/a.ts", text: 'import { b } from "../schema/b.js";' },
    { path: "words/a.ts", text: 'import { citations } from "../statistics/citations.js";' },
    { path: "charts/a.ts", text: 'import { b } from "../words/b.js";' },
    { path: "study/effects/a.ts", text: 'import { b } from "../results.js";' },
    { path: "report/a.ts", text: 'import { readFileSync } from "node:fs";' },
    { path: "schema/a.ts", text: '// import { b } from "../cohort/b.js";' },
  ])("$path may hold: $text", ({ path, text }) => {
    expect(trespasses(parsed(path, text))).toEqual([]);
  });

  it.each([
    'export * from "./a.js";',
    'import { a } from "./a.js";',
    "export const a = 1;",
    "export default {};",
    "const a = 1;\nexport { a };",
  ])("an index may not hold: %s", (text) => {
    expect(logicOf(parsed("study/index.ts", text))).not.toEqual([]);
  });

  it("an index may hold named exports, of types and of a namespace", () => {
    const text =
      'export { a } from "./a.js";\nexport type { B } from "./b.js";\nexport * as c from "./c.js";';
    expect(logicOf(parsed("study/index.ts", text))).toEqual([]);
  });
});
