import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/index.js";
import {
  isSchemaForFile,
  mappingSchemaFor,
  mappingText,
  proposeMapping,
} from "../../../../src/ingest/mapping/index.js";
import { jsonText } from "../../../../src/schema/index.js";
import { schemaChecker } from "../../../json-schemas.js";
import { wordings } from "./sheets.js";

const mappingOf = (text: string) => {
  const { grid } = readGrid({ file: "clinic.csv", bytes: new TextEncoder().encode(text) });
  return proposeMapping(shapeSheet(grid!)!, { name: "clinic", table: "single_sheet" }).mapping;
};

// biome-ignore lint/suspicious/noExplicitAny: what an editor would have, with what somebody typed into it
type Typed = any;

/** A file's mapping as it is written, with a checker of its schema: to compile one takes longer than to check with it. */
function checkedMapping(text: string) {
  const mapping = mappingOf(text);
  return {
    written: mappingText(mapping, { head: [], settings: {}, columns: {} }),
    validate: schemaChecker().compile(mappingSchemaFor(mapping)),
  };
}

const checked = new Map<string, ReturnType<typeof checkedMapping>>();

/** Where an editor would mark a mapping that somebody has changed, by a checker from outside (ajv 8). */
function markedIn(text: string, change: (typed: Typed) => void): readonly string[] {
  const { written, validate } = checked.get(text) ?? checkedMapping(text);
  checked.set(text, { written, validate });
  const typed: Typed = parse(written);
  change(typed);
  return validate(typed) ? [] : [...new Set((validate.errors ?? []).map(({ instancePath }) => instancePath))];
}

describe("the schema beside a mapping", () => {
  it.each(Object.entries(wordings))("takes the mapping as it was proposed: %s", (_, text) => {
    expect(markedIn(text, () => undefined)).toEqual([]);
  });

  it.each<readonly [string, (typed: Typed) => void, string]>([
    [
      "a column that the file does not have",
      ({ columns }) => {
        columns.finger = { from: "Fingr" };
      },
      "/columns/finger/from",
    ],
    [
      "one of several that it does not have",
      ({ columns }) => {
        columns.finger = { from: ["Finger", "Zeta"] };
      },
      "/columns/finger/from/1",
    ],
    [
      "a column that the toolkit does not have",
      ({ columns }) => {
        columns.fnger = { from: "Finger" };
      },
      "/columns",
    ],
    [
      "a word that is no term",
      ({ columns }) => {
        columns.grade = { from: "Grade", values: { III: "three" } };
      },
      "/columns/grade/values/III",
    ],
    [
      "a unit that is none of a distance",
      ({ columns }) => {
        columns.distance_rest_first = { from: "Grade", unit: "kg" };
      },
      "/columns/distance_rest_first/unit",
    ],
    [
      "an answer that is none",
      ({ undecided }) => {
        undecided[0].answer = "perhaps";
      },
      "/undecided/0/answer",
    ],
    [
      "a column left out that is none",
      (typed) => {
        typed.not_used = ["Zeta"];
      },
      "/not_used/0",
    ],
  ])("marks %s", (_, change, place) => {
    expect(markedIn(wordings.mixed, change)).toContain(place);
  });

  it("takes every choice of every question, and any field or term where the answer goes", () => {
    const { undecided } = mappingOf(wordings.mixed);
    expect(undecided.length).toBeGreaterThan(0);
    for (const [i, { choices }] of undecided.entries())
      for (const answer of Object.keys(choices))
        expect(
          markedIn(wordings.mixed, (typed) => {
            typed.undecided[i].answer = answer;
          }),
        ).toEqual([]);
    const meaning = undecided.findIndex(({ decides }) => decides[0]?.[0] === "meaning");
    expect(
      markedIn(wordings.mixed, (typed) => {
        typed.undecided[meaning].answer = "notes";
      }),
    ).toEqual([]);
  });

  it("is known again, so that only it gives way to the next one", () => {
    expect(isSchemaForFile(jsonText(mappingSchemaFor(mappingOf(wordings.German))))).toBe(true);
    expect(isSchemaForFile('{ "$schema": "https://json-schema.org/draft/2020-12/schema" }')).toBe(false);
  });
});
