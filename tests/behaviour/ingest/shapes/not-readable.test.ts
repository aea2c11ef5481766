import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { gridToFit, type Mapping, mappingText, readMapping } from "../../../../src/ingest/mapping/index.js";
import { answered, proposalFor, readBy } from "./open-sheet.js";

const textOf = (mapping: Mapping) => mappingText(mapping, { head: [], settings: {}, columns: {} });

describe("a diary in cells of sentences", () => {
  it("is not read: the question says so, how much it is, and how the sheet must be written", async () => {
    const { mapping } = await proposalFor("06-diary.csv");
    expect(Object.keys(mapping.columns)).toEqual(["person"]);
    const { question, choices } = mapping.undecided[0]!;
    expect(question).toContain('The columns "1. Besuch", "2. Besuch", "3. Besuch" hold sentences with dates');
    expect(question).toContain("one row for each visit");
    expect(choices).toEqual({ not_used: "leave them out: 10 filled cells are not used" });
  });

  it("left out, nothing is left to be counted, and the mapping is refused", async () => {
    const { mapping } = await proposalFor("06-diary.csv", {
      notUsed: ["1. Besuch", "2. Besuch", "3. Besuch"],
    });
    expect(mapping.undecided.map(({ decides }) => decides[0]!.join("."))).toContain(
      "columns.injury_date.from",
    );
    expect(() => readMapping({ file: "mapping.yaml", text: textOf(mapping) })).toThrow(
      /Which column contains/,
    );
  });
});

describe("a calendar with a column for each week", () => {
  const file = "07-calendar.csv";

  it("is asked about once, with its signs and filled cells, and blocks the mapping until then", async () => {
    const { mapping } = await proposalFor(file);
    expect(mapping.undecided).toHaveLength(1);
    const { question, decides, choices } = mapping.undecided[0]!;
    expect(question).toContain('The 30 columns from "KW 3" to "KW 32" are a calendar');
    expect(question).toContain("(R 20, T 18, L 9, V 62)");
    expect(decides).toHaveLength(30);
    expect(choices.not_used).toContain("109 filled cells are not used");
    expect(() => readMapping({ file: "mapping.yaml", text: textOf(mapping) })).toThrow(/has no answer yet/);
  });

  it("left out, every filled cell of it is counted as not used", async () => {
    const { mapping } = await proposalFor(file);
    const { accounts } = await readBy(file, answered(mapping, ["not_used"]));
    const filled = accounts[0]!.columnsNotUsed!.reduce((sum, column) => sum + column.filled, 0);
    expect([accounts[0]!.used, filled]).toEqual([5, 109]);
  });

  it("written as the question says, it is read", async () => {
    const text = readFileSync(new URL(file, import.meta.url), "utf8").trimEnd();
    const states = { treatment: ["R", "T"], easy: ["L"], full: ["V"] } as const;
    const written = text.split("\n").map((line, i) => {
      const cells = line.split(";");
      const weeks = cells.slice(6, 36);
      const begins = (signs: readonly string[]) => weeks.findIndex((cell) => signs.includes(cell));
      const week = (k: number) => (k === -1 ? "" : `2024-W${String(k + 3).padStart(2, "0")}`);
      const further =
        i === 0
          ? ["Therapie", "leichtes Klettern", "volles Klettern"]
          : [
              weeks[begins(states.treatment)] === "R" ? "Ring" : "Tape",
              week(begins(states.easy)),
              week(begins(states.full)),
            ];
      return [...cells.slice(0, 6), ...further, cells[36]].join(";");
    });
    const { mapping } = await proposalFor(file, {}, written.join("\n"));
    expect(mapping.undecided).toEqual([]);
    const { tables } = await readBy(file, mapping, { changed: written.join("\n") });
    // week 15 of 2024 begins on 8 April; C03 is not back
    expect(tables.injuries.map(({ values: v }) => [v.full_climbing_date, v.full_climbing_precision])).toEqual(
      [
        ["2024-04-11", "week"],
        ["2024-03-21", "week"],
        [null, null],
        ["2024-03-14", "week"],
        ["2024-05-09", "week"],
      ],
    );
    expect(tables.treatments.map(({ values }) => values.treatment)).toEqual([
      "ring",
      "tape",
      "ring",
      "tape",
      "tape",
    ]);
  });
});

describe("a sheet wider than any spreadsheet holds", () => {
  const wide = (columns: number) => new TextEncoder().encode(`person${",a".repeat(columns - 1)}\nP1\n`);

  it("is refused with its row and its cells, before its columns are compared", async () => {
    const source = { file: "wide.csv", table: "single_sheet", sheet: null } as const;
    await expect(gridToFit({ ...source, bytes: wide(16_385) })).rejects.toThrow(
      /wide\.csv: row 1 has 16385 cells; at most 16384 columns are looked at/,
    );
    expect((await gridToFit({ ...source, bytes: wide(16_384) })).grid.rows[0]!.cells).toHaveLength(16_384);
  });
});
