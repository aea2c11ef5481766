import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readGrid } from "../../../src/ingest/grid/index.js";
import { readTable } from "../../../src/ingest/index.js";
import { applyMapping } from "../../../src/ingest/mapping/apply/apply-mapping.js";
import { readMapping } from "../../../src/ingest/mapping/read-mapping.js";
import { largestFile } from "../../../src/ingest/text/text-of-file.js";
import { type Table, tables, typeRows } from "../../../src/schema/index.js";
import { fileOf } from "./sheets.js";

const table = tables.sites as Table;
const codesOf = ({ queries }: { readonly queries: readonly { readonly code: string }[] }) =>
  queries.map(({ code }) => code);

describe("doubts that few files raise", () => {
  it("file-too-large: a byte more than the limit, of which nothing is read", () => {
    const tooLarge = { length: largestFile + 1 } as Uint8Array;
    expect(readTable({ ...fileOf("sites", ""), bytes: tooLarge }, table)).toMatchObject({
      read: 0,
      queries: [{ code: "file-too-large", severity: "stop" }],
    });
  });

  it("row-without-end: more than 20 million letters without a line break; a long row that ends is read", () => {
    const text = (length: number) => `site_id,name\nsite-a,${"x".repeat(length)}`;
    const endless = readTable(fileOf("sites", text(20_000_001)), table);
    expect(endless.queries).toMatchObject([{ code: "row-without-end", severity: "stop", row: 2 }]);
    expect(codesOf(readTable(fileOf("sites", `${text(4_000)}\n`), table))).toEqual([]);
  });

  it("header-foreign: a first line of other names, which are not repeated", () => {
    const { queries } = readTable(fileOf("sites", "user,password\nroot,secret\n"), table);
    expect(queries).toMatchObject([{ code: "header-foreign", severity: "stop", row: 1 }]);
    expect(JSON.stringify(queries)).not.toContain("password");
    expect(codesOf(readTable(fileOf("sites", "site_id,name\nsite-a,A\n"), table))).toEqual([]);
  });

  it.each([
    ["site\u200b-a", ["identifier-hidden"]],
    ["site\n-a", ["identifier-hidden"]],
    ["site-a", []],
  ])("identifier-hidden: %j", (cell, codes) => {
    const rows = [{ file: "sites.csv", row: 2, cells: { site_id: cell } }];
    const { queries, setAside } = typeRows(rows, table);
    expect(queries.map(({ code }) => code)).toEqual(codes);
    expect(setAside).toHaveLength(codes.length);
  });

  it("value-not-accepted: what the schema of a field refuses though it could be read", () => {
    const field = table.fields.find(({ name }) => name === "finger_counting")!;
    const row = z.strictObject({ finger_counting: z.literal("with_thumb").nullable() });
    const strict = { ...table, row: row as unknown as Table["row"], fields: [field] };
    const cells = (text: string) => [{ file: "sites.csv", row: 2, cells: { finger_counting: text } }];
    expect(codesOf(typeRows(cells("without thumb"), strict))).toEqual(["value-not-accepted"]);
    expect(codesOf(typeRows(cells("with thumb"), strict))).toEqual([]);
  });
});

describe("doubts that few mapped files raise", () => {
  const mapping = readMapping({
    file: "mapping.yaml",
    text: `mapping: trial
columns:
  person: { from: Pat }
  injury_date: { from: Hurt }
  hand: { constant: left }
  finger: { constant: ring }
  pulleys: { constant: A2 }
  grade: { constant: 3 }
  last_contact: { from: Seen }
`,
  });
  const read = (text: string) => {
    const { grid } = readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(text) });
    return applyMapping(grid!, mapping);
  };

  it("mapping-header-not-found: rows of numbers only", () => {
    const { queries, rows } = read("1;2;3\n4;5;6\n");
    expect(queries).toMatchObject([{ code: "mapping-header-not-found", severity: "stop" }]);
    expect(rows).toEqual([]);
  });

  it("cell-repaired: a character that nobody sees is taken out, and said", () => {
    const clean = read("Pat;Hurt;Seen\np1;2023-03-04;2024-01-31\n");
    expect(codesOf(clean)).toEqual([]);
    const repaired = read("Pat;Hurt;Seen\np1;2023\u200b-03-04;2024-01-31\n");
    expect(repaired.queries).toMatchObject([{ code: "cell-repaired", severity: "look-at", column: "Hurt" }]);
    expect(repaired.rows[0]?.cells.injury_date).toBe("2023-03-04");
  });
});
