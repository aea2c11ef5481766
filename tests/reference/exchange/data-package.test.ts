import { createHash } from "node:crypto";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { csvOnTheWebOf, dataPackageOf, type SchemaField } from "../../../src/exchange/index.js";
import { depositOf, rowsOfText } from "./deposits.js";

const { resources } = depositOf("one-clinic");
const about = {
  name: "invented-deposit",
  title: "SYNTHETIC",
  description: "Invented",
  keywords: ["synthetic"],
};
const descriptor = JSON.parse(dataPackageOf(about, resources));

/** Rules written from the text of the Data Package, Data Resource, Tabular Data Resource and Table Schema specifications, version 1. */
const types =
  "string number integer boolean object array date time datetime year yearmonth duration geopoint geojson any";
const tableSchema = {
  type: "object",
  required: ["fields"],
  properties: {
    fields: {
      type: "array",
      minItems: 1,
      items: {
        type: "object",
        required: ["name"],
        properties: {
          name: { type: "string", minLength: 1 },
          type: { enum: types.split(" ") },
          title: { type: "string" },
          description: { type: "string" },
          format: { type: "string" },
          constraints: {
            type: "object",
            additionalProperties: false,
            properties: {
              required: { type: "boolean" },
              unique: { type: "boolean" },
              enum: { type: "array", minItems: 1, uniqueItems: true },
              pattern: { type: "string", format: "regex" },
              minimum: {},
              maximum: {},
              minLength: { type: "integer", minimum: 0 },
              maxLength: { type: "integer", minimum: 0 },
            },
          },
        },
      },
    },
    missingValues: { type: "array", items: { type: "string" } },
    primaryKey: { oneOf: [{ type: "string" }, { type: "array", minItems: 1, items: { type: "string" } }] },
    foreignKeys: {
      type: "array",
      minItems: 1,
      items: {
        type: "object",
        required: ["fields", "reference"],
        properties: {
          reference: { type: "object", required: ["resource", "fields"] },
        },
      },
    },
  },
};
const dataPackage = {
  type: "object",
  required: ["profile", "name", "resources"],
  properties: {
    profile: { const: "tabular-data-package" },
    name: { type: "string", pattern: "^([-a-z0-9._/])+$" },
    title: { type: "string" },
    description: { type: "string" },
    keywords: { type: "array", minItems: 1, items: { type: "string" } },
    resources: {
      type: "array",
      minItems: 1,
      items: {
        type: "object",
        required: ["profile", "name", "path", "schema"],
        properties: {
          profile: { const: "tabular-data-resource" },
          name: { type: "string", pattern: "^([-a-z0-9._/])+$" },
          // a path goes down from the descriptor: not absolute, no way up
          path: { type: "string", pattern: "^(?!/)(?!.*\\.\\.)[^\\\\]+$" },
          format: { const: "csv" },
          mediatype: { type: "string", pattern: "^(.+)/(.+)$" },
          encoding: { const: "utf-8" },
          bytes: { type: "integer", minimum: 1 },
          hash: { type: "string", pattern: "^sha256:[a-f0-9]{64}$" },
          dialect: {
            type: "object",
            properties: {
              delimiter: { type: "string" },
              header: { type: "boolean" },
              doubleQuote: { type: "boolean" },
            },
          },
          schema: tableSchema,
        },
      },
    },
  },
};

const validator = new Ajv({ strict: false, formats: { regex: (text: string) => new RegExp(text) !== null } });

describe("datapackage.json: Frictionless Data, Data Package and Table Schema version 1", () => {
  it("keeps the rules of the specifications", () => {
    const check = validator.compile(dataPackage);
    expect(check(descriptor), JSON.stringify(check.errors)).toBe(true);
  });

  it.each([
    ["no name", { ...descriptor, name: undefined }],
    ["a name in capitals", { ...descriptor, name: "Deposit" }],
    [
      "a path that leads up",
      { ...descriptor, resources: [{ ...descriptor.resources[0], path: "../a.csv" }] },
    ],
    [
      "a type that is none",
      {
        ...descriptor,
        resources: [{ ...descriptor.resources[0], schema: { fields: [{ name: "a", type: "text" }] } }],
      },
    ],
  ])("these rules refuse %s", (_, broken) => {
    expect(validator.compile(dataPackage)(JSON.parse(JSON.stringify(broken)))).toBe(false);
  });

  it("names are unique; fields stand in the order of the header; keys refer to what is there", () => {
    const names = descriptor.resources.map(({ name }: { name: string }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const [place, { schema }] of descriptor.resources.entries()) {
      const [header = ""] = resources[place]!.text.split("\n");
      const fields = schema.fields.map(({ name }: SchemaField) => name);
      expect(fields).toEqual(header.split(","));
      for (const key of [schema.primaryKey ?? []].flat()) expect(fields).toContain(key);
      for (const { fields: own, reference } of schema.foreignKeys ?? []) {
        expect(names).toContain(reference.resource);
        for (const field of own) expect(fields).toContain(field);
      }
    }
  });

  it("size and digest are those of the file", () => {
    for (const [place, { bytes, hash }] of descriptor.resources.entries()) {
      const content = Buffer.from(resources[place]!.text);
      expect(bytes).toBe(content.length);
      expect(hash).toBe(`sha256:${createHash("sha256").update(content).digest("hex")}`);
    }
  });

  it("every cell keeps the constraints of its field (Table Schema, Constraints)", () => {
    for (const { name, text, schema } of resources) {
      const fields = schema.fields as readonly SchemaField[];
      const rows = rowsOfText(text);
      for (const field of fields) {
        const told = (field.constraints ?? {}) as {
          required?: boolean;
          enum?: string[];
          pattern?: string;
          minimum?: number;
          maximum?: number;
          unique?: boolean;
        };
        const cells = rows.map((row) => row[field.name] ?? "").filter((cell) => cell !== "");
        const where = `${name}.${field.name}`;
        if (told.required) expect(cells.length, where).toBe(rows.length);
        if (told.unique) expect(new Set(cells).size, where).toBe(cells.length);
        for (const cell of cells) {
          if (told.enum !== undefined) expect(told.enum, where).toContain(cell);
          if (told.pattern !== undefined) expect(cell, where).toMatch(new RegExp(told.pattern));
          if (told.minimum !== undefined) expect(Number(cell), where).toBeGreaterThanOrEqual(told.minimum);
          if (told.maximum !== undefined) expect(Number(cell), where).toBeLessThanOrEqual(told.maximum);
          if (field.type === "integer") expect(cell, where).toMatch(/^-?\d+$/);
          if (field.type === "number") expect(Number.isFinite(Number(cell)), where).toBe(true);
          if (field.type === "date") expect(cell, where).toMatch(/^\d{4}-\d{2}-\d{2}$/);
        }
      }
    }
  });
});

describe("csv-metadata.json: W3C Recommendation 17 December 2015, Metadata Vocabulary for Tabular Data", () => {
  const metadata = JSON.parse(csvOnTheWebOf(about, resources));

  it("has the context of the vocabulary and a group of tables with relative addresses", () => {
    expect(metadata["@context"][0]).toBe("http://www.w3.org/ns/csvw");
    expect(metadata.tables.map(({ url }: { url: string }) => url)).toEqual(resources.map(({ path }) => path));
  });

  it("column names are unique, do not begin with _ and need no encoding; datatypes are of the recommendation", () => {
    const known = new Set(["string", "integer", "number", "date"]);
    for (const { tableSchema: schema } of metadata.tables) {
      const names = schema.columns.map(({ name }: { name: string }) => name);
      expect(new Set(names).size).toBe(names.length);
      for (const name of names) expect(name).toMatch(/^[A-Za-z][A-Za-z0-9_]*$/);
      for (const { datatype } of schema.columns) expect(known.has(datatype.base ?? datatype)).toBe(true);
      for (const key of schema.primaryKey ?? []) expect(names).toContain(key);
    }
  });
});
