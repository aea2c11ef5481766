import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { chanceOf, philox } from "../../honesty/cohorts/chance.js";
import { cameToClinic, livePerson } from "../../honesty/cohorts/life.js";
import { figureInCells, notGiven, withLimits } from "../../honesty/cohorts/printed-figure.js";
import { programs } from "../../honesty/cohorts/program.js";
import { type ReaderText, readerText } from "../../honesty/cohorts/reader-text.js";
import { resultsOfFiles } from "../../honesty/cohorts/results-of-files.js";
import { figuresRead, SentenceNotFound } from "../../honesty/cohorts/sentences.js";
import { drawFiles } from "../../honesty/cohorts/tables.js";
import { halfBackOn, meanDays } from "../../honesty/cohorts/truth.js";

const cohorts = new URL("../../honesty/cohorts/", import.meta.url);

const textOf = (name: string, n: number): ReaderText => {
  const program = programs.find((one) => one.name === name)!;
  return readerText(resultsOfFiles(drawFiles(program, { n, chance: chanceOf(name, { n, stream: 0 }) })));
};
const lot = textOf("by lot, days known", 150);

describe("the figures that the honesty simulation judges, as a report gives them", () => {
  it.each([
    ["by lot, days known", lot],
    ["as in a clinic", textOf("as in a clinic", 200)],
  ])("each is found, with its interval: %s", (_, text) => {
    const read = figuresRead(text);
    const names = [...new Set(read.map(({ name }) => name))];
    expect(names).toHaveLength(18);
    // a cell of the grid may have too few injuries to be described
    const given = new Set(read.filter(({ lower }) => lower !== null).map(({ name }) => name));
    expect(names.filter((name) => !given.has(name))).toEqual([]);
    for (const { value, lower, upper } of read)
      if (value !== null) expect([lower! <= value, value <= upper!]).toEqual([true, true]);
  });

  it("each is found where returns are known from visits, with its interval or as one that is not given", () => {
    const read = figuresRead(textOf("visits unlike between the groups, nothing differs", 150));
    expect(new Set(read.map(({ name }) => name)).size).toBe(18);
    const difference = read.find(({ name }) => name.startsWith("difference of shares back, grade for grade"));
    expect(difference!.lower).toBeLessThan(difference!.upper!);
  });

  it("a figure that a report says it cannot give is one that is not given", () => {
    const read = figuresRead(textOf("confounded by grade", 12));
    expect(
      read.find(({ name }) => name.startsWith("difference of shares back, grade for grade")),
    ).toMatchObject(notGiven);
  });

  it("a sentence in other words is an error that names the figure and shows what was found", () => {
    const reworded = lot.sentences.map((sentence) => sentence.replace("percentage points", "points"));
    const read = () => figuresRead({ ...lot, sentences: reworded });
    expect(read).toThrow(SentenceNotFound);
    expect(read).toThrow(
      /"difference of shares back, grade for grade \(points\)" was not found .*Found:\n {2}Grade for grade/s,
    );
    expect(() => figuresRead({ ...lot, sentences: [] })).toThrow(
      '"difference of shares back, grade for grade (points)" was not found',
    );
    expect(() => figuresRead({ ...lot, tables: [] })).toThrow("a table with such a caption");
  });

  it.each([
    ["95 % confidence interval 9 fewer to 36 more", -9, 36],
    ["95 % confidence interval 34 shorter to 0", -34, 0],
    ["95 % confidence interval from 63 days, no upper limit", 63, Number.POSITIVE_INFINITY],
    ["95 % confidence interval up to 80 days", Number.NEGATIVE_INFINITY, 80],
  ])("limits in words: %s", (words, lower, upper) => {
    expect(withLimits(10, words)).toEqual({ value: 10, lower, upper });
  });

  it("limits in cells", () => {
    expect(figureInCells("-4 points", "-29 to 22 points")).toEqual({ value: -4, lower: -29, upper: 22 });
    expect(figureInCells("68 % [47 to 84 %]")).toEqual({ value: 68, lower: 47, upper: 84 });
    expect(figureInCells("too few to describe")).toEqual(notGiven);
    expect(figureInCells("12 days", "no interval: not computed")).toEqual(notGiven);
  });
});

describe("the programs that draw the cohorts", () => {
  it("take nothing from the toolkit but reading, answering and telling", () => {
    const imports = readdirSync(cohorts).flatMap((file) =>
      [...readFileSync(new URL(file, cohorts), "utf8").matchAll(/from "(\.\.\/\.\.\/\.\.\/src\/.*?)"/g)].map(
        ([, from]) => from,
      ),
    );
    expect([...new Set(imports)].sort()).toEqual(
      ["ingest", "report", "study"].map((folder) => `../../../src/${folder}/index.js`),
    );
  });

  // from memory: the known answers published with the generator
  it.each([
    [
      [0, 0, 0, 0],
      [0, 0],
      [0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8],
    ],
    [
      new Array(4).fill(0xffffffff),
      new Array(2).fill(0xffffffff),
      [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd],
    ],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      [0xa4093822, 0x299f31d0],
      [0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1],
    ],
  ])("draw by Philox 4x32 with ten rounds, Salmon et al. 2011: counter %j", (counter, key, words) => {
    expect(philox(counter, key)).toEqual(words);
  });

  it("the same cohort is drawn again by its name, size and stream, and another one by another stream", () => {
    const files = (stream: number) =>
      drawFiles(programs[0]!, { n: 30, chance: chanceOf("a", { n: 30, stream }) });
    expect(files(1)).toEqual(files(1));
    expect(files(1).injuries).not.toEqual(files(2).injuries);
  });

  it("half are back with tape in grade 2 after nine weeks, as the program says, where nobody comes to another end", () => {
    const quiet = {
      ...programs[0]!,
      givingUp: { ring: { weekly: 0, slow: 0 }, tape: { weekly: 0, slow: 0 } },
    };
    const chance = chanceOf("quiet", { n: 1, stream: 1 });
    const lives = Array.from({ length: 10_000 }, () => livePerson(quiet, chance)).flat();
    const days = lives
      .filter((life) => life.grade === "2" && life.treatment === "tape" && cameToClinic(life))
      .map(({ back }) => back)
      .sort((a, b) => a - b);
    // a few ruptures before the return; the rest by the median of the log-normal law, a whole day later at most
    expect(Math.abs(days[Math.floor(days.length / 2)]! - 64)).toBeLessThanOrEqual(3);
  });

  it("the mean of three by hand: back on days 10 and 30, one never, up to day 182", () => {
    const curve = Array.from({ length: 183 }, (_, day) => (day < 10 ? 0 : day < 30 ? 1 / 3 : 2 / 3));
    expect(meanDays(curve)).toBeCloseTo((10 + 30 + 182) / 3, 9);
    expect(halfBackOn(curve)).toBe(30);
  });
});
