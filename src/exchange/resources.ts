import { sha256 } from "@noble/hashes/sha2.js";
import type { JsonObject } from "../schema/json-schema.js";
import type { LinkedTableName } from "../schema/table-names.js";
import { tableSchemaOf } from "../schema/table-schema.js";
import { type Table, tables } from "../schema/tables.js";
import { adtteVariables } from "./adtte-variables.js";

/** A CSV of the deposit with the description of its columns. */
export interface Resource {
  /** Small letters, digits, hyphens, underscores. */
  readonly name: string;
  readonly path: string;
  readonly title: string;
  /** The CSV, UTF-8. */
  readonly text: string;
  /** Table Schema of its columns. */
  readonly schema: JsonObject;
}

/** A field of a Table Schema, as far as the deposit needs it. */
export interface SchemaField {
  readonly name: string;
  readonly type: string;
  readonly title?: string;
  readonly description?: string;
  readonly constraints?: JsonObject;
}

/**
 * A table of the cohort as a resource: the table's own schema, for the columns that are there.
 *
 * @param options path; columns in their order; others: the tables of the deposit, to which a key may refer
 */
export function tableResource(
  table: LinkedTableName,
  {
    path,
    text,
    columns,
    others,
  }: {
    readonly path: string;
    readonly text: string;
    readonly columns: readonly string[];
    readonly others: readonly string[];
  },
): Resource {
  const { title } = tables[table];
  const { fields, foreignKeys, name: _, title: __, ...rest } = tableSchemaOf(tables[table] as Table);
  const present = (fields as readonly SchemaField[]).filter(({ name }) => columns.includes(name));
  const keys = (
    (foreignKeys ?? []) as readonly { readonly reference: { readonly resource: string } }[]
  ).filter(({ reference }) => others.includes(reference.resource));
  return {
    name: table,
    path,
    title,
    text,
    schema: { fields: present, ...rest, ...(keys.length === 0 ? {} : { foreignKeys: keys }) },
  };
}

/** The time-to-event dataset as a resource. */
export const adtteResource = (about: Pick<Resource, "path" | "text">): Resource => ({
  ...about,
  name: "adtte",
  title: "Time-to-event dataset: one record per injury and return",
  schema: {
    fields: adtteVariables.map(
      ({ name, label, type, format, derivation }): SchemaField => ({
        name,
        type: type === "Char" ? "string" : format === "" ? "integer" : "date",
        title: label,
        description: derivation,
        constraints: { required: alwaysThere.has(name) },
      }),
    ),
    missingValues: [""],
    primaryKey: ["USUBJID", "INJID", "PARAMCD"],
  },
});

const alwaysThere: ReadonlySet<string> = new Set(
  "STUDYID USUBJID INJID ASEQ TRTP TRTA INJGR PARAMCD PARAM PARAMN AVAL AVALLO ENTRYDY STARTDT ADT CNSR EVNTDESC".split(
    " ",
  ),
);

/** A resource of text columns only, as the definitions and the accounts are. */
export function plainResource(about: Omit<Resource, "schema">): Resource {
  const [header = ""] = about.text.split("\n");
  const fields = header.split(",").map((name): SchemaField => ({ name, type: "string" }));
  return { ...about, schema: { fields, missingValues: [""] } };
}

/** Size and digest of a text as UTF-8. */
export function bytesAndHash(text: string): { readonly bytes: number; readonly hash: string } {
  const bytes = new TextEncoder().encode(text);
  const digits = [...sha256(bytes)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return { bytes: bytes.length, hash: `sha256:${digits}` };
}
