import { describe, expect, it } from "vitest";
import { readGrid } from "../../../../src/ingest/grid/index.js";
import { shapeSheet } from "../../../../src/ingest/grid/shape/shape-sheet.js";
import { applyMapping } from "../../../../src/ingest/mapping/apply/apply-mapping.js";
import { proposeMapping } from "../../../../src/ingest/mapping/propose/propose.js";
import { queryText } from "../../../../src/schema/words.js";
import { sheetOf, wordings } from "./sheets.js";

const first = wordings.German;
const { mapping } = proposeMapping(sheetOf(first), { name: "german", table: "single_sheet" });
const gridOf = (text: string) => readGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(text) }).grid!;
const driftOf = (text: string) =>
  applyMapping(gridOf(text), mapping).queries.map((query) => ({ ...query, said: queryText(query) }));

describe("a later file from the same site", () => {
  it("in the same shape: nothing to say", () => {
    expect(driftOf(first)).toEqual([]);
  });

  it.each([
    {
      name: "a column renamed that a return is read from",
      text: first.replace("Leichtes Klettern ab", "Leichtes Kletern ab"),
      code: "mapping-column-gone",
      severity: "stop",
      says: 'If it was renamed to "Leichtes Kletern ab"',
    },
    {
      name: "a column gone that no row needs",
      text: first.replace("Geschlecht", "Etwas ganz anderes"),
      code: "mapping-column-gone",
      severity: "look-at",
      says: "is named in the mapping (for sex)",
    },
    {
      name: "a column added",
      text: first.replace("Bemerkungen\n", "Bemerkungen;Griffkraft\n").replace("7a;7a;\n", "7a;7a;;42\n"),
      code: "mapping-column-new",
      severity: "look-at",
      says: 'column "Griffkraft"',
    },
    {
      name: "a new word that is understood",
      text: first.replace("F-04;männlich", "F-04;divers"),
      code: "mapping-value-new",
      severity: "look-at",
      says: 'is read as "other"',
    },
    {
      name: "a new word that is not",
      text: first.replace("F-04;männlich", "F-04;zzz"),
      code: "mapping-value-new",
      severity: "look-at",
      says: "its meaning is not known",
    },
    {
      name: "distances ten times larger",
      text: first.replaceAll(/;(\d),(\d);(\d),(\d);/g, ";$1$2;$3$4;"),
      code: "mapping-unit-shifted",
      severity: "stop",
      says: "the unit or the decimal sign may have changed",
    },
    {
      name: "dates with the month first",
      text: first.replaceAll(/(\d\d)\.(\d\d)\.(\d{4})/g, "$2.$1.$3"),
      code: "mapping-date-order-changed",
      severity: "stop",
      says: "cannot be day-first as the mapping states",
    },
  ])("$name", ({ text, code, severity, says }) => {
    const found = driftOf(text).find((query) => query.code === code);
    expect(found).toMatchObject({ code, severity });
    expect(found?.said).toContain(says);
  });

  it("what stops the run leaves no row behind", () => {
    const result = applyMapping(gridOf(first.replace("Unfalldatum", "zzz")), mapping);
    expect(result).toMatchObject({ read: 0, rows: [] });
  });

  it("mapped again, keeps what a person put in by hand and asks only what is new", () => {
    const byHand = {
      ...mapping,
      columns: {
        ...mapping.columns,
        sex: { from: "Geschlecht", values: { männlich: "not_stated", weiblich: "female" } },
        site: { constant: "site-a" },
      },
    };
    const text = first.replace("F-04;männlich", "F-04;unbekanntes Wort");
    const again = proposeMapping(shapeSheet(gridOf(text))!, {
      name: "x",
      table: "single_sheet",
      earlier: byHand,
    });
    expect(again.mapping.mapping).toBe("german");
    expect(again.mapping.columns.sex?.values).toMatchObject({ männlich: "not_stated" });
    expect(again.mapping.columns.site).toEqual({ constant: "site-a" });
    expect(again.mapping.undecided.map(({ decides }) => decides[0])).toEqual([
      ["columns", "sex", "values", "unbekanntes Wort"],
    ]);
  });

  it("mapped again, reads a column that has another name now, with what its words meant", () => {
    const byHand = {
      ...mapping,
      columns: { ...mapping.columns, sex: { from: "Geschlecht", values: { männlich: "not_stated" } } },
    };
    const again = proposeMapping(shapeSheet(gridOf(first.replace("Geschlecht", "Sex")))!, {
      name: "x",
      table: "single_sheet",
      earlier: byHand,
    });
    expect(again.mapping.columns.sex).toMatchObject({ from: "Sex", values: { männlich: "not_stated" } });
    expect(applyMapping(gridOf(first.replace("Geschlecht", "Sex")), again.mapping)).toMatchObject({
      queries: [],
    });
  });

  it("mapped again, asks about new words in a column that two of ours are read from", () => {
    const sheet = (fingers: readonly string[]) =>
      sheetOf(
        [
          "Patient;Injury date;Which finger;Pulley;Grade;Last contact",
          ...fingers.map((finger, row) => `p${row};2023-03-0${row + 1};${finger};A2;3;2024-01-31`),
        ].join("\n"),
      );
    const options = { name: "x", table: "single_sheet" } as const;
    const earlier = proposeMapping(sheet(["left ring", "right middle", "L index"]), options).mapping;
    expect(earlier.undecided).toEqual([]);
    expect([earlier.columns.hand?.from, earlier.columns.finger?.from]).toEqual([
      "Which finger",
      "Which finger",
    ]);
    const again = proposeMapping(sheet(["left ring", "rght little", "L pinky"]), { ...options, earlier });
    expect(again.mapping.undecided.map(({ decides }) => decides[0])).toEqual([
      ["columns", "hand", "values", "rght little"],
      ["columns", "finger", "values", "rght little"],
    ]);
    expect(again.mapping.columns.finger?.values).toMatchObject({
      "right middle": "middle",
      "L pinky": "little",
    });
  });
});
