import { describe, expect, it } from "vitest";
import { MappingError, readMapping } from "../../../../src/ingest/mapping/read-mapping.js";

const good = `mapping: trial
columns:
  person: { from: Pat }
  injury_date: { from: Hurt }
  hand: { from: Side }
  finger: { from: Finger }
  pulleys: { from: Pulley }
  grade: { from: Gr }
  last_contact: { from: Seen }
`;

const messageOf = (text: string): string => {
  try {
    readMapping({ file: "mapping.yaml", text });
  } catch (error) {
    if (error instanceof MappingError) return error.message;
    throw error;
  }
  return "no error";
};

describe("a mapping", () => {
  it("needs a name and the columns that every row needs", () => {
    expect(readMapping({ file: "mapping.yaml", text: good })).toMatchObject({
      table: "single_sheet",
      date_order: "year-first",
      decimal_sign: "point",
      undecided: [],
    });
  });

  it.each([
    {
      name: "a key misspelt",
      text: `${good}date_ordr: day-first\n`,
      says: ['line 10, column 1: "date_ordr": is not a key of a mapping.', 'Did you mean "date_order"?'],
    },
    {
      name: "a key of a column misspelt",
      text: good.replace("{ from: Gr }", "{ form: Gr }"),
      says: ['line 8, column 12: "columns.grade.form"', 'Did you mean "from"?'],
    },
    {
      name: "a column of ours misspelt",
      text: `${good}  treatmnt: { from: Tx }\n`,
      says: ['line 10, column 3: "columns.treatmnt": is not a column', 'Did you mean "treatment"?'],
    },
    {
      name: "a column that is missing",
      text: good.replace("  grade: { from: Gr }\n", ""),
      says: ['does not include "grade", which every row needs'],
    },
    {
      name: "a meaning that is none",
      text: good.replace("{ from: Side }", "{ from: Side, values: { re: rigth } }"),
      says: ['"columns.hand.values.re": "rigth" is not a possible value of hand', 'Did you mean "right"?'],
    },
    {
      name: "a unit of another quantity",
      text: `${good}  distance_rest_first: { from: TPD, unit: kg }\n`,
      says: ['"kg" cannot be converted to millimetres', "Write one of: mm, cm"],
    },
    {
      name: "two origins",
      text: good.replace("{ from: Side }", "{ from: Side, constant: left }"),
      says: ['"columns.hand": has from and constant'],
    },
    {
      name: "a question without an answer",
      text: `${good}undecided:\n  - question: Which first?\n    decides: [[date_order]]\n    choices: { day-first: day, month-first: month }\n    answer:\n`,
      says: ["line 11", "has no answer yet: Which first?", "one of: day-first, month-first"],
    },
    {
      name: "an answer that is no choice",
      text: `${good}undecided:\n  - question: Which first?\n    decides: [[date_order]]\n    choices: { day-first: day, month-first: month }\n    answer: day-frist\n`,
      says: [
        'line 14, column 5: "undecided.0.answer": "day-frist" is not a possible answer',
        'Did you mean "day-first"?',
      ],
    },
    {
      name: "one thing taken from two columns",
      text: `${good}undecided:\n${["Back", "Again"]
        .map(
          (column) =>
            `  - question: What is ${column}?\n    decides: [[meaning, ${column}]]\n    choices: { full: full, not_used: none }\n    answer: full\n`,
        )
        .join("")}`,
      says: ['"undecided.1.answer": full already comes from "Back".', 'Answer "not_used" for one of them'],
    },
    { name: "no YAML", text: "mapping: [", says: ["this is not YAML"] },
  ])("$name: says where and how to correct it", ({ text, says }) => {
    const message = messageOf(text);
    for (const part of says) expect(message).toContain(part);
  });

  it("settles what is answered", () => {
    const text = `${good}undecided:
  - question: Which first?
    decides: [[date_order]]
    choices: { day-first: day, month-first: month }
    answer: month-first
  - question: What is Back?
    decides: [[meaning, Back]]
    choices: { full: full, not_used: none }
    answer: full
  - question: What is IV?
    decides: [[columns, grade, values, IV]]
    choices: { 4a: x, 4b: y }
    answer: 4b
`;
    const mapping = readMapping({ file: "mapping.yaml", text });
    expect(mapping).toMatchObject({ date_order: "month-first", undecided: [] });
    expect(mapping.columns.full).toEqual({ from: "Back" });
    expect(mapping.columns.grade).toEqual({ from: "Gr", values: { IV: "4b" } });
  });

  it("no name in it reaches anything but a cell", () => {
    const withValues = (values: string) =>
      good.replace("{ from: Side }", `{ from: Side, values: { ${values} } }`);
    expect(messageOf(withValues("__proto__: left"))).toContain(
      "line 5, column 33: is a key that is not read",
    );
    const { columns } = readMapping({ file: "mapping.yaml", text: withValues("constructor: right") });
    expect(Object.getPrototypeOf(columns)).toBe(Object.prototype);
    expect(Object.entries(columns.hand?.values ?? {})).toEqual([["constructor", "right"]]);
  });
});
