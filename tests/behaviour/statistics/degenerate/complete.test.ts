import { describe, expect, it } from "vitest";
import { cases } from "./cases.js";
import { numberHelpers, withoutData } from "./exempt.js";
import { exported } from "./exported.js";
import { casesOf, table } from "./table.js";

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
