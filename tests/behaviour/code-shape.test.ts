import ts from "typescript";
import { describe, expect, it } from "vitest";
import { swept } from "../engines/sweep.js";
import { nodesOf, parsed, type SourceFile, sourceFiles } from "./source-tree.js";

const longestFile = 300;

/** Members whose answer differs from run to run or from machine to machine. */
const unsteadyMembers: Readonly<Record<string, readonly string[]>> = {
  Math: ["random"],
  Date: ["now"],
  performance: ["now", "timeOrigin"],
  crypto: ["randomUUID", "getRandomValues", "randomBytes", "randomInt"],
};

const linesOf = ({ text }: SourceFile) => text.replace(/\n$/, "").split("\n").length;

/** The words of one language stand in one file, however many they are. */
const isWordList = ({ path }: SourceFile) => path.startsWith("schema/languages/");

/** Whatever would make the same input give other bytes: the clock, chance, the locale. */
function unsteady({ path, tree }: SourceFile): readonly string[] {
  return [...nodesOf(tree)]
    .filter((node) => usesClockOrChance(node) || usesLocale(node))
    .map((node) => placeOf(node, { path, tree }));
}

function usesClockOrChance(node: ts.Node): boolean {
  const named = memberOf(node);
  if (named !== null) return (unsteadyMembers[named.object] ?? []).includes(named.member);
  const isDate = (called: ts.Expression) => called.getText() === "Date";
  // Date() without new ignores its arguments and tells the present time.
  if (ts.isCallExpression(node)) return isDate(node.expression);
  return ts.isNewExpression(node) && isDate(node.expression) && (node.arguments ?? []).length === 0;
}

function usesLocale(node: ts.Node): boolean {
  const named = memberOf(node);
  if (named !== null && /^(toLocale|localeCompare$)/.test(named.member)) return true;
  if (!ts.isNewExpression(node) && !ts.isCallExpression(node)) return false;
  const called = memberOf(node.expression);
  if (called?.object !== "Intl") return false;
  const locale = node.arguments?.[0];
  return locale === undefined || !ts.isStringLiteralLike(locale);
}

/** Powers whose last digit the language leaves to the engine. */
const enginePowers = ({ path, tree }: SourceFile): readonly string[] =>
  [...nodesOf(tree)].filter(isEnginePower).map((node) => placeOf(node, { path, tree }));

function isEnginePower(node: ts.Node): boolean {
  const named = memberOf(node);
  if (named !== null) return named.object === "Math" && named.member === "pow";
  if (!ts.isBinaryExpression(node)) return false;
  const { kind } = node.operatorToken;
  if (kind === ts.SyntaxKind.AsteriskAsteriskEqualsToken) return true;
  return kind === ts.SyntaxKind.AsteriskAsteriskToken && !isExactPower(node);
}

/** Functions of Math whose every bit the language fixes, and powers, which have a check of their own. */
const exactOrChecked =
  "abs ceil clz32 floor fround imul max min pow random round sign sqrt sumPrecise trunc".split(" ");

/** Functions of Math whose last digit the language leaves to the engine. */
const engineFunctions = ({ tree }: SourceFile): readonly string[] =>
  [...nodesOf(tree)]
    .map(memberOf)
    .filter((named) => named?.object === "Math" && /^[a-z]/.test(named.member))
    .map((named) => named!.member)
    .filter((member) => !exactOrChecked.includes(member));

/** A square is a product on every engine; so small a power of two has no digit to round. */
const isExactPower = ({ left, right }: ts.BinaryExpression): boolean =>
  right.getText() === "2" || (left.getText() === "2" && /^\d{1,2}$/.test(right.getText()));

const placeOf = (node: ts.Node, { path, tree }: Pick<SourceFile, "path" | "tree">): string =>
  `${path}, line ${tree.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${node.getText()}`;

/** `object.member` and `object["member"]`. */
function memberOf(node: ts.Node): { readonly object: string; readonly member: string } | null {
  if (ts.isPropertyAccessExpression(node)) {
    return { object: lastName(node.expression), member: node.name.text };
  }
  if (ts.isElementAccessExpression(node) && ts.isStringLiteralLike(node.argumentExpression)) {
    return { object: lastName(node.expression), member: node.argumentExpression.text };
  }
  return null;
}

/** `Math` of `Math` and of `globalThis.Math`. */
const lastName = (object: ts.Expression) => object.getText().split(".").at(-1)!;

describe("the shape of src", () => {
  it(`has no file over ${longestFile} lines`, () => {
    const long = sourceFiles.filter((file) => linesOf(file) > longestFile && !isWordList(file));
    expect(long.map((file) => `${file.path}: ${linesOf(file)} lines`)).toEqual([]);
    expect(sourceFiles.length).toBeGreaterThan(50);
  });

  it("asks neither clock nor chance nor locale anywhere", () => {
    // measuring time is what the one is for, which makes no output of the project; the other draws the key of a copy
    const exempt = ["maintenance/measure.ts", "workbench/browser/machine.ts"];
    const others = sourceFiles.filter(({ path }) => !exempt.includes(path));
    expect(others.flatMap(unsteady)).toEqual([]);
  });

  it("takes no power from the engine: products, roots, literals or power() of statistics/shared/power.ts", () => {
    expect(sourceFiles.flatMap(enginePowers)).toEqual([]);
  });

  it("calls no other function of Math than tests/engines compares between engines", () => {
    expect([...new Set(sourceFiles.flatMap(engineFunctions))].sort()).toEqual(Object.keys(swept).sort());
  });
});

describe("what these checks find", () => {
  it.each([
    "Math.random()",
    'Math["random"]()',
    "globalThis.Math.random()",
    "const draw = Math.random;",
    "Date.now()",
    "new Date()",
    "new Date",
    "Date()",
    "performance.now()",
    "crypto.randomUUID()",
    "(12.5).toLocaleString()",
    "day.toLocaleDateString('en')",
    "'a'.toLocaleUpperCase()",
    "a.localeCompare(b)",
    "new Intl.NumberFormat()",
    "new Intl.NumberFormat(undefined)",
    "new Intl.Collator(locale)",
    "Intl.DateTimeFormat().resolvedOptions().timeZone",
  ])("not allowed: %s", (text) => {
    expect(unsteady(parsed("schema/a.ts", text))).not.toEqual([]);
  });

  it.each([
    "new Date(0)",
    "Date.UTC(2024, 0, 1)",
    "Math.floor(1.5)",
    'new Intl.NumberFormat("en")',
    "a.toUpperCase()",
    "// Math.random()",
    "'Math.random()'",
  ])("allowed: %s", (text) => {
    expect(unsteady(parsed("schema/a.ts", text))).toEqual([]);
  });

  it.each([
    "x ** y",
    "10 ** k",
    "x ** 3",
    "x ** 0.5",
    "2 ** k",
    "2 ** 1.5",
    "x **= 2",
    "Math.pow(x, 2)",
    "[].map(Math.pow)",
    'Math["pow"](2, 3)',
  ])("not allowed: %s", (text) => {
    expect(enginePowers(parsed("schema/a.ts", text))).not.toEqual([]);
  });

  it.each([
    "x ** 2",
    "(a - b) ** 2",
    "2 ** 53",
    "x * x * x",
    "Math.sqrt(x)",
    "/** x ** 3 */ 1",
    "power(x, 3)",
  ])("allowed: %s", (text) => {
    expect(enginePowers(parsed("schema/a.ts", text))).toEqual([]);
  });

  it.each([
    ["Math.cbrt(x)", ["cbrt"]],
    ["values.map(Math.log10)", ["log10"]],
    ["Math.floor(Math.sqrt(x)) + Math.LN2", []],
  ])("of %s an engine chooses the last digit of %j", (text, functions) => {
    expect(engineFunctions(parsed("schema/a.ts", text))).toEqual(functions);
  });

  it("counts lines without the last line end", () => {
    expect(linesOf(parsed("schema/a.ts", "a;\nb;\n"))).toBe(2);
  });
});
