import { describe, expect, it } from "vitest";
import {
  freeAnswerHint,
  mappingSchema,
  readMapping,
  takeAnswer,
} from "../../../../src/ingest/mapping/index.js";

const mapping = mappingSchema.parse({
  mapping: "free",
  columns: { person: { from: "Pat" }, grade: { from: "Grad" } },
  seen: { columns: ["Pat", "Grad", "Zuletzt  gesehen"], rows: 3 },
});
const asked = (decides: string[], choices: Readonly<Record<string, string>> = { one: "the first" }) => ({
  question: "What?",
  decides: [decides],
  choices,
});
const take = (decides: string[], text: string) => takeAnswer(asked(decides), { text, mapping });

describe("an answer that was not proposed", () => {
  it.each([
    ["a choice", ["columns", "grade", "values", "IV"], "one", "one"],
    ["any legal term of the field", ["columns", "grade", "values", "IV"], "4_undivided", "4_undivided"],
    ["a legal term in another form", ["columns", "pulleys", "values", "x"], "A2|A3", "A2|A3"],
    ["a question about each row", ["columns", "grade", "values", "IV"], "ask", "ask"],
    ["any column of the toolkit", ["meaning", "Spalte"], "last contact", "last_contact"],
    ["no column", ["meaning", "Spalte"], "none", "not_used"],
    [
      "any column of the file, however it is spaced",
      ["columns", "last_contact", "from"],
      "zuletzt gesehen",
      "Zuletzt  gesehen",
    ],
    ["any unit that can be converted", ["columns", "distance_loaded_first", "unit"], "cm", "cm"],
  ])("may be %s", (_, decides, text, answer) => {
    expect(take(decides, text)).toEqual({ answer });
  });

  it.each([
    ["no term of the field", ["columns", "grade", "values", "IV"], "severe", "any of: 1, 2, 3"],
    ["a slip", ["columns", "last_contact", "from"], "Zuletzt geseen", 'Did you mean "Zuletzt  gesehen"?'],
    ["nothing that orders dates", ["date_order"], "sideways", "Write one of: one."],
  ])("is refused with what is possible: %s", (_, decides, text, expected) => {
    const taken = take(decides, text);
    expect("expected" in taken && taken.expected).toContain(expected);
  });

  it("is offered only where one is possible", () => {
    expect(freeAnswerHint(asked(["columns", "last_contact", "from"]), mapping)).toContain(
      "any column of the file",
    );
    expect(freeAnswerHint(asked(["date_order"]), mapping)).toBeNull();
  });

  const withAnswer = (about: string, answer: string) => `mapping: free
columns:
  person: { from: Pat }
  injury_date: { from: Tag }
  hand: { from: Hand }
  finger: { from: Finger }
  pulleys: { from: Band }
  grade: { from: Grad }
  last_contact: { from: Ende }
undecided:
  - question: What?
    decides: [${about}]
    choices: { not_used: no }
    answer: ${answer}
`;

  it("is taken in mapping.yaml as well", () => {
    const read = (text: string, undecided?: "kept") =>
      readMapping({ file: "mapping.yaml", text }, undecided === undefined ? {} : { undecided });
    expect(read(withAnswer("[columns, grade, values, schwer]", "4b")).columns.grade).toMatchObject({
      values: { schwer: "4b" },
    });
    expect(read(withAnswer("[meaning, Geschlecht]", "sex")).columns.sex).toEqual({ from: "Geschlecht" });
    // in what unit the column is, nobody has looked at yet
    const distance = withAnswer("[meaning, Abstand]", "distance_loaded_first");
    expect(() => read(distance)).toThrow(/not settled how its cells are read/);
    expect(read(distance, "kept").columns.distance_loaded_first).toEqual({ from: "Abstand" });
  });
});
