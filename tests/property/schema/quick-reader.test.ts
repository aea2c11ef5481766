import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { z } from "zod";
import { cellReaderOf, type Table, type TableName, tables } from "../../../src/schema/index.js";
import { quickReaderOf } from "../../../src/schema/quick-reader.js";
import { rowNamer } from "../../../src/schema/row-namer.js";
import { isTyped, rowTyper } from "../../../src/schema/row-typer.js";

const seed = 20_240_304;

/** Cells near the usual forms, so that the quick reader is tempted. */
const cell = fc.oneof(
  fc.stringMatching(/^[0-9.,+-]{0,17}$/),
  fc.stringMatching(/^(19|20)[0-9]{2}-[0-3][0-9]-[0-3][0-9]$/),
  fc.constantFrom(
    "2024-02-29",
    "2023-02-29",
    "0.1",
    "1e3",
    "1.",
    ".5",
    "007",
    "15.0",
    "n/a",
    "999",
    "'=1",
    " 7",
    "7\u200b",
    "-",
  ),
  fc.string({ maxLength: 8, unit: "binary" }),
  fc.string({ minLength: 115, maxLength: 125, unit: fc.constantFrom("a", "1") }),
);

describe("the quick reader of a field", () => {
  const fields = Object.values(tables).flatMap((table) =>
    table.fields.map((field) => ({
      name: `${table.name}.${field.name}`,
      field,
      schema: table.row.shape[field.name] as z.ZodType,
    })),
  );
  it.each(fields)(
    "$name: where it answers, the full reader and the schema say the same",
    ({ field, schema }) => {
      const [quick, read] = [quickReaderOf(field), cellReaderOf(field)];
      fc.assert(
        fc.property(cell, (text) => {
          const answer = quick(text);
          if (answer === undefined) return;
          expect(read(text)).toEqual({ value: answer });
          expect(schema.safeParse(answer).success).toBe(true);
        }),
        { seed, numRuns: 150 },
      );
    },
  );
});

describe("a typed row", () => {
  it.each(Object.keys(tables) as TableName[])("%s: passes the schema of the whole row", (name) => {
    const table = tables[name] as Table;
    const columns = table.fields.map((field, place) => ({ name: field.name, place }));
    const cells = table.fields.map((field) =>
      fc.oneof({ weight: 6, arbitrary: fc.constant(field.example) }, cell),
    );
    const typeRow = rowTyper(table, { columns, dateOrder: "day-first", ask: () => undefined });
    const named = rowNamer(table);
    let typed = 0;
    fc.assert(
      fc.property(fc.tuple(...cells), (entries) => {
        const outcome = typeRow(entries, { file: "a.csv", row: 2 });
        if (!isTyped(outcome)) return;
        typed += 1;
        expect(table.row.safeParse(named(outcome)).error).toBeUndefined();
      }),
      { seed, numRuns: 200 },
    );
    expect(typed).toBeGreaterThan(0);
  });
});
