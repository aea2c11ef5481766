import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { themes } from "../../../src/charts/index.js";
import { awkwardFigures } from "../../behaviour/charts/awkward-figures.js";

const schemaFile = createRequire(import.meta.url).resolve("vega-lite/vega-lite-schema.json");
// the code made of this schema runs a few dozen times: polishing it would take longer than all the runs
const ajv = new Ajv({
  strict: false,
  validateFormats: false,
  inlineRefs: false,
  code: { optimize: false },
});
const validate = ajv.compile(JSON.parse(readFileSync(schemaFile, "utf8")) as object);

describe("JSON Schema published with vega-lite 6.4.3", () => {
  it.each(Object.keys(awkwardFigures))("holds for the specification of: %s", (name) => {
    const { spec } = awkwardFigures[name]!(themes.screen);
    validate(spec);
    expect((validate.errors ?? []).slice(0, 3)).toEqual([]);
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });
});
