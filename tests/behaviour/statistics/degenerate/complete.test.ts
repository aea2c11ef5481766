import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cases } from "./cases.js";
import { numberHelpers, withoutData } from "./exempt.js";
import { exported } from "./exported.js";
import { casesOf, table } from "./table.js";

const guide = readFileSync(new URL("../../../../DEVELOPERS.md", import.meta.url), "utf8");

const functions = await exported();
const inTable = new Set<unknown>(table.map(({ of }) => of));
const exempt = new Set([...numberHelpers, ...withoutData]);

describe("the table of degenerate cases", () => {
  it("has a row for every exported function that takes data", () => {
    const missing = functions.filter(({ name, of }) => !inTable.has(of) && !exempt.has(name));
    expect(missing.map(({ name }) => name)).toEqual([]);
    expect(functions.length).toBeGreaterThan(100);
  });

  it("excuses only what is exported and has no row", () => {
    const names = new Set(functions.filter(({ of }) => !inTable.has(of)).map(({ name }) => name));
    expect([...exempt].filter((name) => !names.has(name))).toEqual([]);
  });

  it("states each case once, and only cases that the function is put to", () => {
    const odd = table.flatMap((row) => {
      const stated = Object.values(row.outcomes).flat();
      const twice = stated.filter((name, place) => stated.indexOf(name) !== place);
      const foreign = stated.filter((name) => !casesOf(row).includes(name));
      return [...twice, ...foreign].map((name) => `${row.name}: ${name}`);
    });
    expect(odd).toEqual([]);
  });

  it("puts every case to some function, and ten or more to each that has rows", () => {
    const put = new Set(table.flatMap(casesOf));
    expect(Object.keys(cases).filter((name) => !put.has(name as keyof typeof cases))).toEqual([]);
    expect(table.filter((row) => casesOf(row).length < 6).map(({ name }) => name)).toEqual([]);
  });
});

describe("the table of methods in DEVELOPERS.md", () => {
  const [, below = ""] = guide.split(/^\| method .*\n\|[- |]+\n/m);
  const methods = below
    .slice(0, below.search(/^(?!\|)/m))
    .trimEnd()
    .split("\n")
    .map((line) => line.split("|").map((cell) => cell.trim()));
  const named = new Set(
    methods.flatMap((cells) => [...(cells[2] ?? "").matchAll(/`(\w+)`/g)].map(([, name]) => name)),
  );

  it("names every exported function", () => {
    const missing = functions.filter(
      ({ name }) => !named.has(name) && !numberHelpers.includes(name) && name !== "ArgumentError",
    );
    expect(missing.map(({ name }) => name)).toEqual([]);
  });

  it("names nothing that is not there", () => {
    const names = new Set([
      ...functions.map(({ name }) => name),
      ...table.map(({ name }) => name),
      "clusters",
    ]);
    expect([...named].filter((name) => name !== undefined && !names.has(name))).toEqual([]);
  });

  it("gives each method a published source, where it has one", () => {
    const without = methods.filter((cells) => (cells[5] ?? "") === "").map((cells) => cells[1]);
    expect(without).toEqual(["seeded generator, one stream a replicate"]);
  });
});
