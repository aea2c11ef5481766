import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { habitCodes, historyCodes, linkCodes, rowCodes } from "../../../src/schema/data-query.js";

const root = new URL("../../../", import.meta.url);
const guide = readFileSync(new URL("DEVELOPERS.md", root), "utf8");
const table = guide.slice(guide.indexOf("## The rules on the data"), guide.indexOf("## Add a method"));
const rows = table.split("\n").filter((line) => line.startsWith("| ") && line.includes("`"));
const cellsOf = (row: string) => row.split("|").map((cell) => cell.trim());

describe("the table of rules in DEVELOPERS.md", () => {
  it("names every kind of doubt about rows", () => {
    const named = new Set([...table.matchAll(/`([a-z0-9-]+)`/g)].map(([, code]) => code));
    const codes = [...rowCodes, ...linkCodes, ...historyCodes, ...habitCodes];
    expect(codes.filter((code) => !named.has(code))).toEqual([]);
  });

  it.each(rows.map((row) => [cellsOf(row)[2]!, row]))(
    "%s: its files and tests are there, and the tests name the code",
    (codes, row) => {
      const [, , , files, tests] = cellsOf(row);
      for (const file of files!.split(", "))
        expect(existsSync(new URL(`src/${file}.ts`, root)), file).toBe(true);
      const texts = tests!.split(", ").map((test) => {
        const [path] = ["schema", "ingest"]
          .map((folder) => new URL(`tests/behaviour/${folder}/${test}.test.ts`, root))
          .filter((place) => existsSync(place));
        expect(path, test).toBeDefined();
        return readFileSync(path!, "utf8");
      });
      for (const [, code] of codes.matchAll(/`([a-z0-9-]+)`/g))
        expect(
          texts.some((text) => text.includes(code!)),
          `${code} in ${tests}`,
        ).toBe(true);
    },
  );
});
