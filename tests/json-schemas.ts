import { readFileSync } from "node:fs";
import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";

export const schemasFolder = new URL("../schemas/", import.meta.url).pathname;

const parsed = (path: string) => JSON.parse(readFileSync(path, "utf8"));

/** A file of `schemas/`, parsed. */
export const parsedSchema = (name: string) => parsed(`${schemasFolder}${name}`);

/** Annotations such as `unit` are allowed by the standard and unknown to the checker; `format` is checked by pattern. */
export const schemaChecker = () => new Ajv2020({ strict: false, validateFormats: false });

/** The checkers of committed schemas: to compile one takes longer than to check a file. */
const checkers = new Map<string, ValidateFunction>();

function checkerOf(schema: string): ValidateFunction {
  const known = checkers.get(schema) ?? schemaChecker().compile(parsedSchema(schema));
  checkers.set(schema, known);
  return known;
}

/** What a committed schema (JSON Schema 2020-12, read by ajv 8) holds against a JSON file; empty when it agrees. */
export function schemaErrors(path: string, schema: string): readonly unknown[] {
  const validate = checkerOf(schema);
  return validate(parsed(path)) ? [] : (validate.errors ?? []);
}
