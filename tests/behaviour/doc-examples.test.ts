import { describe, expect, it } from "vitest";
import { testedModule } from "../tested-module.js";
import { sourceFiles } from "./source-tree.js";

/*
 * The examples in the doc comments are run as they stand there, and give what they say.
 * After "// =>" stands what the expression before it gives, itself an expression (5/6, sqrt(2)). A number written with
 * decimals holds to its last digit, any other to 13 digits.
 */
interface Example {
  readonly path: string;
  readonly text: string;
}

const commentText = (comment: string): string =>
  comment
    .slice("/**".length, -"*/".length)
    .split("\n")
    .map((line) => line.replace(/^\s*\* ?/, ""))
    .join("\n");

const examples: readonly Example[] = sourceFiles.flatMap(({ path, text }) =>
  [...text.matchAll(/\/\*\*[\s\S]*?\*\//g)].flatMap(([comment]) =>
    commentText(comment)
      .split(/^@/m)
      .filter((tag) => tag.startsWith("example"))
      .map((tag) => ({ path, text: tag.slice("example".length).trim() })),
  ),
);

/** An expression, what was said before it, and what it is said to give. */
interface Claim {
  readonly before: string;
  readonly expression: string;
  readonly gives: string;
}

/** Each "// =>" of an example; a line that begins with a bracket, a point or a space goes on with the line above it. */
function claimsOf(text: string): readonly Claim[] {
  const claims: Claim[] = [];
  let [before, statement] = ["", ""];
  for (const line of text.split("\n")) {
    const [code = "", gives] = line.split("// =>");
    const goesOn = /^[\s)}\].]/.test(line) || code.trim() === "";
    if (!goesOn && statement !== "") [before, statement] = [`${before}${statement}\n`, ""];
    statement += `${code}\n`;
    if (gives !== undefined)
      claims.push({ before, expression: statement.trim().replace(/;$/, ""), gives: gives.trim() });
  }
  return claims;
}

/** What an example may use: what its own file exports, then what the entrances of the layers do. */
const entrances = sourceFiles.map(({ path }) => path).filter((path) => /^\w+\/(\w+\/)*index\.ts$/.test(path));
async function namesFor(path: string): Promise<Readonly<Record<string, unknown>>> {
  const shared = await Promise.all(
    entrances.filter((entrance) => !entrance.startsWith("maintenance/")).map(testedModule),
  );
  return Object.assign({}, ...shared, await testedModule(path), { sqrt: Math.sqrt });
}

const run = (code: string, names: Readonly<Record<string, unknown>>): unknown =>
  new Function(...Object.keys(names), `"use strict";\n${code}`)(...Object.values(names));

/** How far a number may lie from the one that is written. */
function tolerance(written: string, value: number): number {
  const decimals = /^-?\d+\.(\d+)$/.exec(written)?.[1]?.length;
  const digits = 1e-13 * Math.max(1, Math.abs(value));
  return decimals === undefined ? digits : Math.max(0.5 * 10 ** -decimals, digits);
}

/** What is given, with every number that is near enough to the one stated in its place. */
function compared(given: unknown, stated: unknown, written: string): unknown {
  if (typeof given === "number" && typeof stated === "number")
    return Math.abs(given - stated) <= tolerance(written, stated) ? stated : given;
  if (ArrayBuffer.isView(given)) return compared(Array.from(given as Float64Array), stated, written);
  if (Array.isArray(given) && Array.isArray(stated))
    return given.map((value, at) => compared(value, stated[at], written));
  if (given !== null && stated !== null && typeof given === "object" && typeof stated === "object")
    return Object.fromEntries(
      Object.entries(given).map(([name, value]) => [
        name,
        compared(value, (stated as Record<string, unknown>)[name], written),
      ]),
    );
  return given;
}

/** Runs a claim, and holds what comes out against what it states. */
function check({ before, expression, gives }: Claim, names: Readonly<Record<string, unknown>>): void {
  const given = run(`${before}return (${expression}\n);`, names);
  const stated = run(`return (${gives}\n);`, names);
  expect(compared(given, stated, gives)).toEqual(stated);
}

describe("the examples of the doc comments give what they say", () => {
  it.each(examples)("$path: $text", async ({ path, text }) => {
    const claims = claimsOf(text);
    expect(claims, "an example says after // => what it gives").not.toEqual([]);
    const names = await namesFor(path);
    for (const claim of claims) check(claim, names);
  });

  it("are found: there are dozens", () => {
    expect(examples.length).toBeGreaterThan(60);
  });

  it("would not hold with another number, text, or part of an object", () => {
    const wrong = [
      "5/6 // => 4/6",
      "sqrt(2) // => 1.4143",
      "[1, 2] // => [1, 3]",
      "({ a: 1, b: 2 }) // => ({ a: 1 })",
      '"a" // => "b"',
      "1 + 1e-12 // => 1",
    ];
    for (const text of wrong)
      for (const claim of claimsOf(text)) expect(() => check(claim, { sqrt: Math.sqrt })).toThrow();
    for (const claim of claimsOf("const x = 2;\nx\n  .toFixed(1)\n// => '2.0'")) check(claim, {});
  });
});
