import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ruleRows, rulesPage } from "../../../src/maintenance/rules.js";
import { queryCodes } from "../../../src/schema/data-query.js";

const rows = ruleRows().flatMap(([, group]) => group);

describe("src/schema/RULES.md", () => {
  it("is what the code says", () => {
    const committed = readFileSync(new URL("../../../src/schema/RULES.md", import.meta.url), "utf8");
    expect(committed).toBe(rulesPage());
  });

  it("has every kind of doubt once", () => {
    expect(rows.map(({ code }) => code).sort()).toEqual([...queryCodes].sort());
  });

  it("every kind of doubt is raised by some file and named by some test", () => {
    const codesWithout = (part: "files" | "tests") =>
      rows.filter((row) => row[part].length === 0).map(({ code }) => code);
    expect(codesWithout("files")).toEqual([]);
    expect(codesWithout("tests")).toEqual([]);
  });
});
