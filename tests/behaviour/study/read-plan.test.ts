import { describe, expect, it } from "vitest";
import { PlanError } from "../../../src/study/plan-error.js";
import { readPlan } from "../../../src/study/read-plan.js";

const good = `study: first-audit
title: Who came back, and when
data:
  injuries: injuries.csv
`;

const messageOf = (text: string): string => {
  try {
    readPlan("study.yaml", text);
  } catch (error) {
    if (error instanceof PlanError) return error.message;
    throw error;
  }
  return "no error";
};

describe("a study file", () => {
  it("needs three keys only; everything else has a stated default", () => {
    const plan = readPlan("study.yaml", good);
    expect(plan.question.milestone).toBe("full_climbing");
    expect(plan.compare).toEqual({
      by: "first_treatment",
      groups: ["ring", "tape"],
      reference: "tape",
      adjust_for: ["grade"],
      within: "grade",
      smallest_group: 5,
    });
    expect(plan.horizon_weeks).toBe(26);
  });

  it("drops the default adjustment for grade when grades are compared", () => {
    const plan = readPlan("study.yaml", `${good}compare:\n  by: grade\n  groups: [2, 3]\n  reference: 2\n`);
    expect(plan.compare.groups).toEqual(["2", "3"]);
    expect(plan.compare.adjust_for).toEqual([]);
  });

  it.each([
    {
      name: "a typo in a key",
      text: `${good}horizon_week: 26\n`,
      says: ['line 5, column 1: "horizon_week": is not a key', 'Did you mean "horizon_weeks"?'],
    },
    {
      name: "a typo in a nested key",
      text: `${good}question:\n  milstone: full_climbing\n`,
      says: ["line 6, column 3", 'Did you mean "milestone"?', "The keys allowed here are: milestone, clock"],
    },
    {
      name: "a field that cannot be compared",
      text: `${good}compare:\n  by: ever_ring\n`,
      says: [
        'line 6, column 3: "compare.by": "ever_ring" cannot be used',
        "first_treatment",
        "time before it",
      ],
    },
    {
      name: "a misspelt value",
      text: `${good}question:\n  milestone: ful_climbing\n`,
      says: ['Did you mean "full_climbing"?'],
    },
    {
      name: "a missing title",
      text: "study: x\ndata:\n  injuries: i.csv\n",
      says: ['"title": is missing', "a word or text"],
    },
    { name: "an empty file", text: "", says: ['"study": is missing', '"data": is missing'] },
    {
      name: "broken YAML",
      text: "study: [a\ntitle: b: c\n",
      says: ["this is not YAML", "line "],
    },
    {
      name: "a reference outside the groups",
      text: `${good}compare:\n  reference: surgery\n`,
      says: ['"surgery" is not among the groups', "ring, tape"],
    },
    {
      name: "a main landmark outside the landmarks",
      text: `${good}main_landmark_weeks: 12\n`,
      says: ["12 is not among the landmarks", "6, 8, 10, 13, 17, 26"],
    },
    {
      name: "a group that cannot occur",
      text: `${good}compare:\n  groups: [rings, tape]\n`,
      says: ['"rings" is not a first treatment', 'Did you mean "ring"?'],
    },
    {
      name: "a landmark beyond the horizon",
      text: `${good}landmarks_weeks: [13, 52]\n`,
      says: ["52 is beyond the horizon of 26 weeks"],
    },
    {
      name: "linked tables and a single sheet at once",
      text: good.replace("injuries.csv", "injuries.csv\n  single_sheet: sheet.csv"),
      says: ["both linked tables and a single sheet"],
    },
    {
      name: "a first treatment of the groups where no treatments are compared",
      text: `${good}compare:\n  by: grade\n  groups: ["2", "3"]\n  reference: "2"\nquestion:\n  first_treatment: of_compared\n`,
      says: ["of_compared does not go with groups by grade", "rest_aside"],
    },
    { name: "a list instead of keys", text: "- a\n- b\n", says: ["cannot be used", "keys and values"] },
    {
      name: "a number out of range",
      text: `${good}confidence_level: 95\n`,
      says: ["95 cannot be used", "at most 0.999"],
    },
    ...["9999-12-31", "1949-12-31"].map((day) => ({
      name: `a closing day that no date of a table can reach, ${day}`,
      text: good.replace("data:\n", `data:\n  closed_on: ${day}\n`),
      says: [`"${day}" cannot be used`, "a day as YYYY-MM-DD from 1950 to 2099"],
    })),
  ])("with $name says where and how to correct it", ({ text, says }) => {
    const message = messageOf(text);
    for (const part of says) expect(message).toContain(part);
  });

  it.each(["\r", "\r\n"])("with lines that end in %j says the same, and names the same lines", (end) => {
    const withEnds = (text: string) => text.replaceAll("\n", end);
    expect(readPlan("study.yaml", withEnds(good))).toEqual(readPlan("study.yaml", good));
    const wrong = `${good}horizon_week: 26\n`;
    expect(messageOf(withEnds(wrong))).toBe(messageOf(wrong));
  });

  it("tells all problems at once, in the order of the file", () => {
    const message = messageOf(`${good}horizon_week: 26\nquestion:\n  clok: injury\nconfidence_level: x\n`);
    expect(message.match(/line \d+/g)).toEqual(["line 5", "line 7", "line 8"]);
  });
});
