import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { methodsText } from "../../../src/maintenance/methods.js";
import { citations } from "../../../src/statistics/citations.js";
import { methods } from "../../../src/statistics/methods/methods.js";
import { sources } from "../../../src/words/sources.js";
import { sourceFiles } from "../source-tree.js";
import { numberHelpers } from "./degenerate/exempt.js";
import { exported } from "./degenerate/exported.js";
import { table } from "./degenerate/table.js";

const layer = sourceFiles.filter(({ path }) => path.startsWith("statistics/"));
const all = methods.flatMap((group) => group.methods);
const known: readonly string[] = Object.values(citations);
const functions = await exported();

/** The texts after `@source` in the comments of a file, each on one line. */
const sourcesIn = (text: string): readonly string[] =>
  [...text.matchAll(/@source ((?:.|\n)*?)(?=\n\s*\* @|\n?\s*\*\/)/g)].map(([, source]) =>
    source!.replaceAll(/\s*\n\s*\*\s*/g, " ").trim(),
  );

/** A source without the citations that are in the list. */
const withoutKnown = (source: string): string =>
  [...known].sort((a, b) => b.length - a.length).reduce((rest, one) => rest.replaceAll(one, ""), source);

describe("the list of methods", () => {
  const named = new Set(all.flatMap((method) => method.functions));

  it("names every exported function", () => {
    const missing = functions.filter(
      ({ name }) => !named.has(name) && !numberHelpers.includes(name) && name !== "ArgumentError",
    );
    expect(missing.map(({ name }) => name)).toEqual([]);
    expect(functions.length).toBeGreaterThan(100);
  });

  it("names nothing that is not there", () => {
    const names = new Set([...functions.map(({ name }) => name), ...table.map(({ name }) => name)]);
    expect([...named].filter((name) => !names.has(name))).toEqual([]);
    const files = all.flatMap((method) => method.files);
    expect(
      files.filter((file) => !existsSync(new URL(`../../../src/statistics/${file}`, import.meta.url))),
    ).toEqual([]);
  });

  it("gives each method a published source, or says why there is none", () => {
    const without = all.filter((method) => method.sources.length === 0);
    expect(without.map(({ name, sourceNote }) => [name, sourceNote])).toEqual([
      ["difference and ratio of two estimates", "delta method"],
      ["distribution functions", "the distributions' own tables"],
    ]);
  });

  it.each(all.filter((method) => method.sources.length > 0))(
    "$name: the doc comments cite what the list cites",
    ({ files, sources: cited }) => {
      const said = layer
        .filter(({ path }) => files.some((file) => path.startsWith(`statistics/${file}`)))
        .flatMap(({ text }) => sourcesIn(text))
        .join("; ");
      expect(cited.filter((one) => !said.includes(one))).toEqual([]);
    },
  );

  it("gives METHODS.md, which is committed as it is made", () => {
    const committed = new URL("../../../src/statistics/METHODS.md", import.meta.url);
    expect(readFileSync(committed, "utf8")).toBe(methodsText());
    // a name or a source with a bar would break the table
    expect(
      new Set(
        methodsText()
          .match(/^\|.*$/gm)!
          .map((row) => row.split("|").length),
      ),
    ).toEqual(new Set([7]));
  });
});

describe("the list of citations", () => {
  it("has every source that a doc comment of the layer cites, in the same words", () => {
    const strange = layer.flatMap(({ path, text }) =>
      sourcesIn(text)
        .map(withoutKnown)
        .filter((rest) => /\b(?:1[89]|20)\d\d\b/.test(rest))
        .map((rest) => `${path}: ${rest}`),
    );
    expect(strange).toEqual([]);
  });

  it("has nothing that nobody cites, and nothing twice", () => {
    const said = layer.flatMap(({ text }) => sourcesIn(text)).join("; ");
    expect(known.filter((one) => !said.includes(one))).toEqual([]);
    expect(new Set(known).size).toBe(known.length);
  });

  it("is where a report takes its sources from, but for those of practices that are no method", () => {
    const own = Object.values(sources)
      .map(withoutKnown)
      .filter((rest) => /\d{4}/.test(rest));
    expect(own.sort()).toEqual([
      "Bar & Lillard 2012, Stat Med 31:3347",
      "Hernán & Robins 2016, Am J Epidemiol 183:758",
      "Suissa 2008, Am J Epidemiol 167:492",
      "Zhang & Sun 2010, Stat Methods Med Res 19:53",
      "von Elm and others 2007, Lancet 370:1453",
    ]);
  });

  it("is not copied into words, charts and report", () => {
    const others = sourceFiles.filter(({ path }) => /^(?:words|charts|report)\//.test(path));
    const copies = others.flatMap(({ path, text }) =>
      known.filter((one) => text.includes(one)).map((one) => `${path}: ${one}`),
    );
    expect(copies).toEqual([]);
  });
});

describe("what these checks find", () => {
  it.each([
    ["Kaplan & Meier 1958, J Am Stat Assoc 53:475", true],
    ["Nobody 1999, J Nothing 1:1", true],
    ["ties: Efron 1977, J Am Stat Assoc 72:557 (as used here)", false],
  ])("%s: %s", (source, strange) => {
    expect(/\b(?:1[89]|20)\d\d\b/.test(withoutKnown(source))).toBe(strange);
  });

  it("reads a source that goes over several lines", () => {
    expect(sourcesIn("/**\n * @source A 1999,\n *   B 1:1\n * @example x\n */")).toEqual(["A 1999, B 1:1"]);
  });
});
