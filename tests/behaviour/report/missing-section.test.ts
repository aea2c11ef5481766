import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/report/index.js";
import type { Results } from "../../../src/study/results.js";
import { inputOf, resultsOf } from "./fixtures.js";

const textOf = (id: string, changes: Partial<Results> = {}): string => {
  const found = sectionsOf(inputOf(changes)).find((section) => section.id === id);
  return found!.body.markup.replaceAll(/<[^>]*>/g, " ").replaceAll(/[\s\u00a0]+/g, " ");
};
const { missing, lost } = resultsOf();

describe("what is missing, and who was lost, in words", () => {
  it("how many are complete, what is missing most, what the study rests on", () => {
    const text = textOf("missing");
    expect(text).toContain("Of 61 analysed injuries, 47 have a value in every one of 3 fields.");
    expect(text).toContain("Most often missing: grip (13, 21 %) and grade (2, 3 %).");
    expect(text).toContain("Of the fields that the study compares by or adjusts for, grade is missing in 2;");
    expect(text).toContain("Not collected at all, and not counted here: height.");
    expect(text).toContain("A return that was not reached yet is not a missing value");
  });

  it("a cohort without gaps says so and shows no empty table", () => {
    const fields = missing.fields.map((field) => ({ ...field, blank: 0, unknown: 0, missing: 0, share: 0 }));
    const text = textOf("missing", {
      missing: { ...missing, fields, complete: 61, patterns: [{ fields: [], n: 61 }] },
    });
    expect(text).toContain("No field has missing values.");
    expect(text).toContain("No value of a field that the study compares by or adjusts for is missing.");
    expect(text).not.toContain("Injuries without a value");
    expect(text).not.toContain("Values missing together");
  });

  it("the lost are described, not tested, and not where they are so few that it would tell of single people", () => {
    const text = textOf("missing");
    expect(text).toContain(
      "7 of 61 injuries (11 %) were last observed before 26 weeks (182 days) and before the data were closed",
    );
    expect(text).toContain("Lost to follow-up compared with those who stayed, all analysed injuries");
    expect(text).toContain(
      "Those lost and those who stayed are not compared for first treatment ring (2 lost, 22 stayed)",
    );
    expect(text).toContain(": too few injuries, and a table of so few would describe single people.");
    expect(text).toContain("A description, not a test: it cannot tell why people were lost.");
    expect(text).not.toMatch(/\bp\b ?[<=]/);
  });

  it("without a closing day it says who counts as lost", () => {
    expect(textOf("missing", { lost: { ...lost, closing_day_known: false } })).toContain(
      "names no day on which the data were closed (closed_on), so that whoever is still followed counts as lost",
    );
  });
});

describe("the site's answers", () => {
  const answers: Results["answers"] = {
    file: "some/where/answers.csv",
    read: 9,
    blank: 1,
    used: { stands: 2, change: 1, "leave-out": 1 },
    repeated: 1,
    not_used: { stale: 1, contradictory: 1, unreadable: 1 },
    cells_changed: 1,
    rows_left_out: 1,
  };

  it("are counted line by line, and the folder is nobody's business", () => {
    const text = textOf("queries", { answers });
    expect(text).toContain("1 cell was read as the site corrected it, 1 row was left out.");
    expect(text).toContain("Answers, answers.csv");
    expect(text).not.toContain("some/where");
    expect(text).toMatch(/All lines 9/);
  });

  it("are not spoken of where there are none", () => {
    expect(textOf("queries")).not.toContain("Answers of the site");
    expect(textOf("queries", { queries: [] })).toContain("No data queries were found.");
    expect(textOf("queries", { queries: [], answers })).toContain("No data queries are open.");
  });
});
