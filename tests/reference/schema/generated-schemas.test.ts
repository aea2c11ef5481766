import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { differingSchemas, generatedSchemas } from "../../../src/maintenance/schemas.js";
import { cellReaderOf, type Table, tableSchemaOf, tables } from "../../../src/schema/index.js";
import { parsedSchema, schemaChecker, schemasFolder } from "../../json-schemas.js";

const allTables = Object.values(tables as unknown as Readonly<Record<string, Table>>);
const jsonSchemas = readdirSync(schemasFolder).filter((name) => name.endsWith(".schema.json"));

describe("schemas/", () => {
  it("holds what the code generates, and nothing else", () => {
    expect(differingSchemas(schemasFolder)).toEqual([]);
    expect([...generatedSchemas().keys()].sort()).toEqual(readdirSync(schemasFolder).sort());
  });

  it.each(jsonSchemas)("%s agrees with the meta-schema of JSON Schema 2020-12", (name) => {
    const schema = parsedSchema(name);
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    const ajv = schemaChecker();
    expect(ajv.validateSchema(schema), ajv.errorsText()).toBe(true);
    expect(() => ajv.compile(schema)).not.toThrow();
  });

  it.each(allTables)(
    "$name: a row of the examples is accepted by its JSON Schema, one without a needed field is not",
    (table) => {
      const valid = schemaChecker().compile(parsedSchema(`${table.name}.schema.json`));
      const row = Object.fromEntries(
        table.fields.map((field) => {
          const reading = cellReaderOf(field)(field.example);
          return [field.name, "value" in reading ? reading.value : undefined];
        }),
      );
      expect(valid(row), JSON.stringify(valid.errors)).toBe(true);
      const needed = table.fields.find(({ required }) => required)!.name;
      expect(valid({ ...row, [needed]: null })).toBe(false);
      expect(valid({ ...row, shoe_size: 42 })).toBe(false);
    },
  );

  it("a study file that says the least is accepted by study.schema.json, a misspelt word is not", () => {
    const valid = schemaChecker().compile(parsedSchema("study.schema.json"));
    const study = { study: "a", title: "A", data: { injuries: "injuries.csv" } };
    expect(valid(study), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...study, titel: "A" })).toBe(false);
  });
});

describe("table schemas (Frictionless Table Schema v1: fields, constraints, keys)", () => {
  const types = new Set(["string", "number", "integer", "date"]);

  it.each(allTables)("$name: types, constraints and keys of the standard", (table) => {
    const schema = parsedSchema(`${table.name}.table.json`);
    expect(schema).toEqual(JSON.parse(JSON.stringify(tableSchemaOf(table))));
    const names = schema.fields.map((field: { name: string }) => field.name);
    expect(new Set(names).size).toBe(names.length);
    expect(schema.fields.every((field: { type: string }) => types.has(field.type))).toBe(true);
    for (const column of schema.primaryKey ?? []) expect(names).toContain(column);
    for (const key of schema.foreignKeys ?? []) expect(names).toEqual(expect.arrayContaining(key.fields));
  });

  it.each(allTables)(
    "$name: every field's example is accepted by its own reader and keeps its constraints",
    (table) => {
      for (const field of tableSchemaOf(table).fields as readonly {
        name: string;
        example?: string;
        constraints: Record<string, unknown>;
      }[]) {
        const { example = "", constraints, name } = field;
        const own = table.fields.find((other) => other.name === name)!;
        expect(cellReaderOf(own)(example), `${table.name}.${name}`).toHaveProperty("value");
        expect(
          table.row.shape[name]!.safeParse((cellReaderOf(own)(example) as { value: unknown }).value).success,
          name,
        ).toBe(true);
        if (typeof constraints.pattern === "string") expect(example).toMatch(new RegExp(constraints.pattern));
        if (Array.isArray(constraints.enum)) expect(constraints.enum).toContain(example);
      }
    },
  );
});
