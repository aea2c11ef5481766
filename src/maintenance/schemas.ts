import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { z } from "zod";
import { mappingSchema } from "../ingest/mapping/mapping.js";
import { pooledResultsSchema } from "../pooling/pooled/index.js";
import { mergedSummariesSchema, siteSummarySchema } from "../pooling/summary/index.js";
import { disclosureSchema } from "../privacy/disclosure.js";
import { manifestSchema } from "../run/manifest.js";
import { answersTable } from "../schema/answers.js";
import { dataDictionary } from "../schema/data-dictionary.js";
import { jsonSchemaOf } from "../schema/json-schema.js";
import { tableSchemaOf } from "../schema/table-schema.js";
import { type Table, tables } from "../schema/tables.js";
import { planSchema } from "../study/plan.js";
import { resultsSchema } from "../study/results.js";
import { sealedPlanSchema } from "../study/sealed/sealed-plan.js";

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Every file of `schemas/` with its text, by name. */
export function generatedSchemas(): ReadonlyMap<string, string> {
  const described = [
    ...Object.values(tables as unknown as Readonly<Record<string, Table>>),
    answersTable as Table,
  ];
  const ofTables = described.flatMap((table) => [
    [`${table.name}.schema.json`, json(jsonSchemaOf(table))] as const,
    [`${table.name}.table.json`, json(tableSchemaOf(table))] as const,
  ]);
  return new Map([
    ...ofTables,
    ["mapping.schema.json", json(z.toJSONSchema(mappingSchema, { io: "input" }))],
    ["study.schema.json", json(z.toJSONSchema(planSchema, { io: "input" }))],
    ["results.schema.json", json(z.toJSONSchema(resultsSchema))],
    ["disclosure.schema.json", json(z.toJSONSchema(disclosureSchema))],
    ["sealed-plan.schema.json", json(z.toJSONSchema(sealedPlanSchema))],
    ["site-summary.schema.json", json(z.toJSONSchema(siteSummarySchema))],
    ["merged-summaries.schema.json", json(z.toJSONSchema(mergedSummariesSchema))],
    ["pooled-results.schema.json", json(z.toJSONSchema(pooledResultsSchema))],
    ["report-manifest.schema.json", json(z.toJSONSchema(manifestSchema))],
    ["data-dictionary.csv", dataDictionary()],
  ]);
}

/** Names of the files in a folder that differ from what the code generates, are missing, or are not generated. */
export function differingSchemas(folder: string): readonly string[] {
  const generated = generatedSchemas();
  const present = new Set(readdirSync(folder));
  const differing = [...generated].filter(
    ([name, text]) => !present.has(name) || readFileSync(`${folder}/${name}`, "utf8") !== text,
  );
  return [...differing.map(([name]) => name), ...[...present].filter((name) => !generated.has(name))].sort();
}

function writeSchemas(folder: string): void {
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of generatedSchemas()) writeFileSync(`${folder}/${name}`, text);
}

function main(): void {
  const folder = fileURLToPath(new URL("../../schemas", import.meta.url));
  if (!process.argv.includes("--check")) {
    writeSchemas(folder);
    return;
  }
  const differing = differingSchemas(folder);
  for (const name of differing) {
    process.stderr.write(
      `schemas/${name} differs from what src/schema says.\n  Run: node dist/maintenance/schemas.js\n`,
    );
  }
  if (differing.length > 0) process.exitCode = 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
