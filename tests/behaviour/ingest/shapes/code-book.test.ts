import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readFileAsGrid, shapeSheet } from "../../../../src/ingest/index.js";
import { codeBookOf } from "../../../../src/ingest/mapping/index.js";
import { proposalFor, readBy } from "./open-sheet.js";

const file = "05-codes.csv";

async function gridOf(name: string) {
  const bytes = readFileSync(new URL(name, import.meta.url));
  const { grid } = await readFileAsGrid({ file: name, bytes });
  return grid!;
}

describe("a code book", () => {
  it("is known by its column names, codes and labels, and nothing else is one", async () => {
    const sheet = shapeSheet(await gridOf(file))!;
    const book = codeBookOf(await gridOf("05-codes-book.csv"), sheet);
    expect([...book!.keys()]).toEqual(["side", "finger", "treatment"]);
    expect(codeBookOf(await gridOf(file), sheet)).toBeNull();
    expect(codeBookOf(await gridOf("01-one-row-a-visit.csv"), sheet)).toBeNull();
  });

  it("gives the codes their meanings: 1, 2, 3 of a treatment are treatments", async () => {
    const sheet = shapeSheet(await gridOf(file))!;
    const codes = codeBookOf(await gridOf("05-codes-book.csv"), sheet)!;
    const { mapping } = await proposalFor(file, { codes });
    expect(mapping.undecided).toEqual([]);
    expect(mapping.columns.treatment).toEqual({
      from: "treatment",
      values: { "1": "tape", "2": "ring", "3": "surgery" },
    });
    const { tables, accounts } = await readBy(file, mapping);
    expect(accounts).toMatchObject([{ read: 4, used: 4 }]);
    expect(tables.treatments.map(({ values }) => values.treatment)).toEqual([
      "ring",
      "tape",
      "surgery",
      "tape",
    ]);
    expect(tables.injuries.map(({ values }) => [values.hand, values.finger])).toEqual([
      ["left", "ring"],
      ["right", "middle"],
      ["left", "ring"],
      ["right", "ring"],
    ]);
  });
});
