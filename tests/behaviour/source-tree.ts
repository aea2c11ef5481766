import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";

/** A file of src/, parsed; `path` is relative to src/ and has forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
  readonly tree: ts.SourceFile;
}

/** What a file takes from elsewhere, by import, export from, dynamic import or import type. */
export interface Import {
  readonly from: string;
  readonly typesOnly: boolean;
}

const source = fileURLToPath(new URL("../../src/", import.meta.url));

export const parsed = (path: string, text: string): SourceFile => ({
  path,
  text,
  tree: ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true),
});

export const sourceFiles: readonly SourceFile[] = readdirSync(source, { recursive: true, encoding: "utf8" })
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => path.endsWith(".ts"))
  .sort()
  .map((path) => parsed(path, readFileSync(`${source}${path}`, "utf8")));

/** Every node of a tree, top to bottom: comments are none. */
export function nodesOf(node: ts.Node): readonly ts.Node[] {
  const nodes: ts.Node[] = [];
  const take = (each: ts.Node): void => {
    nodes.push(each);
    ts.forEachChild(each, take);
  };
  take(node);
  return nodes;
}

export function importsOf({ tree }: SourceFile): readonly Import[] {
  return [...nodesOf(tree)].flatMap((node): readonly Import[] => {
    if (ts.isImportDeclaration(node)) return told(node.moduleSpecifier, onlyTypes(node.importClause));
    if (ts.isExportDeclaration(node)) return told(node.moduleSpecifier, isTypeExport(node));
    if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
      return told(node.argument.literal, true);
    }
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      return told(node.arguments[0], false);
    }
    return [];
  });
}

const told = (specifier: ts.Node | undefined, typesOnly: boolean): readonly Import[] =>
  specifier !== undefined && ts.isStringLiteralLike(specifier) ? [{ from: specifier.text, typesOnly }] : [];

function onlyTypes(clause: ts.ImportClause | undefined): boolean {
  if (clause === undefined) return false;
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
  const named = clause.namedBindings;
  return (
    clause.name === undefined &&
    named !== undefined &&
    ts.isNamedImports(named) &&
    named.elements.every(({ isTypeOnly }) => isTypeOnly)
  );
}

const isTypeExport = (node: ts.ExportDeclaration): boolean =>
  node.isTypeOnly ||
  (node.exportClause !== undefined &&
    ts.isNamedExports(node.exportClause) &&
    node.exportClause.elements.every(({ isTypeOnly }) => isTypeOnly));

/** The folder of src/ in which a file lies; "" for the entrance of the package. */
export const layerOf = (path: string): string => (path.includes("/") ? path.slice(0, path.indexOf("/")) : "");

/** The path under src/ that a relative import means. */
export const meant = (file: string, from: string): string =>
  decodeURIComponent(new URL(from, `file:///src/${file}`).pathname).replace(/^\/src\//, "");
