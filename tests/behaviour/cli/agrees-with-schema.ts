import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";

const folder = new URL("../../../schemas/", import.meta.url);

/** What a committed schema (JSON Schema 2020-12, read by ajv 8) holds against a JSON file; empty when it agrees. */
export function schemaErrors(path: string, schema: string): readonly unknown[] {
  const parsed = (from: string | URL) => JSON.parse(readFileSync(from, "utf8"));
  const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(
    parsed(new URL(schema, folder)),
  );
  return validate(parsed(path)) ? [] : (validate.errors ?? []);
}
