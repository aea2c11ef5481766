import { describe, expect, it } from "vitest";
import { earlierTreatments, firstTreatment, linkTables } from "../../../src/cohort/index.js";
import { readCohort } from "../../../src/ingest/index.js";
import { plainWords } from "../../../src/report/index.js";
import { csvText } from "../../../src/schema/index.js";
import { withoutSmallCells } from "../../../src/study/index.js";
import { trialRows } from "../../../src/words/target-trial/rows.js";
import { injury, on, type Row, resultsOf, treated } from "./hand-made.js";

/** Back on this day. */
const back = (id: string, day: number, change: Row = {}) =>
  injury(id, { full_climbing_date: on(day), ...change });
const begun = (id: string, treatment: string, day: number): Row => ({
  ...treated(id, treatment),
  start_date: on(day),
});

/**
 * Ring: 1 (rest before), 2, 3 (operated on day 30, before the return) and 4 (rehabilitation without a start); back by day 91: 2 and 3.
 * Tape: 5 (rest on the same day), 6, 7 and 8 (rest before); back by day 91: 5 and 8. Back before any treatment: 9. Operated first and ringed
 * on day 20: 10, back on day 90.
 */
const injuries = [
  back("1", 100),
  back("2", 50),
  back("3", 60),
  back("4", 120),
  back("5", 80),
  back("6", 110),
  back("7", 100),
  back("8", 40),
  back("9", 3),
  back("10", 90),
];
const treatments = [
  begun("1", "rest", 0),
  begun("1", "ring", 4),
  begun("2", "ring", 1),
  begun("3", "ring", 2),
  begun("3", "surgery", 30),
  begun("4", "ring", 1),
  { ...treated("4", "rehabilitation"), start_date: "" },
  begun("5", "rest", 1),
  begun("5", "tape", 1),
  begun("6", "tape", 0),
  begun("7", "tape", 1),
  begun("8", "rest", 0),
  begun("8", "tape", 6),
  begun("9", "tape", 9),
  begun("10", "surgery", 1),
  begun("10", "ring", 20),
];

describe("the target trial, counted by hand", () => {
  const results = resultsOf(injuries, treatments);
  const trial = results.target_trial!;

  it("says when treatments began, what came before and what followed", () => {
    expect(trial.groups).toEqual([
      {
        label: "ring",
        n: 4,
        began_by_day_0: 0,
        began_later: 4,
        median_days: 1.5,
        longest_days: 4,
        had_another_before: 1,
        before: [{ code: "rest", n: 1 }],
        before_not_known: 1,
        went_on: 1,
        later: [{ code: "surgery", n: 1 }],
        lost: 0,
      },
      {
        label: "tape",
        n: 4,
        began_by_day_0: 1,
        began_later: 3,
        median_days: 1,
        longest_days: 6,
        had_another_before: 1,
        before: [{ code: "rest", n: 1 }],
        before_not_known: 0,
        went_on: 0,
        later: [],
        lost: 0,
      },
    ]);
  });

  it("gives the main figure under each rule that puts others into the groups: 3 of 5 less 2 of 4, 2 of 2 less none of 2", () => {
    const told = trial.other_readings.map(({ first_treatment, groups, differences }) => ({
      first_treatment,
      n: groups.map(({ n }) => n),
      difference: differences.map(({ returned }) => Number(returned.value?.toFixed(12))),
    }));
    expect(told).toEqual([
      { first_treatment: "of_compared", n: [5, 4], difference: [0.1] },
      // 5 began two treatments on one day, of 4 it is not known which came first, 1 and 8 rested first
      { first_treatment: "of_all", n: [2, 2], difference: [1] },
    ]);
    const main = results.effects.find(({ measure, main }) => measure === "landmark_difference" && main);
    expect(main?.estimate.value).toBeCloseTo(0, 12);
  });

  it("each reading is what the study file gives that names it", () => {
    for (const { first_treatment, groups, differences } of trial.other_readings) {
      const named = resultsOf(injuries, treatments, { question: { first_treatment } });
      expect(named.cohort.groups).toEqual(groups);
      const main = named.effects.filter(
        ({ measure, main, adjusted_for }) =>
          measure === "landmark_difference" && main && adjusted_for.length > 0,
      );
      expect(main.map(({ estimate }) => estimate)).toEqual(differences.map(({ returned }) => returned));
      expect(named.target_trial!.other_readings.map((one) => one.first_treatment)).not.toContain(
        first_treatment,
      );
    }
  });

  it("under of_all nothing came before, by its meaning", () => {
    const named = resultsOf(injuries, treatments, { question: { first_treatment: "of_all" } });
    expect(named.target_trial!.groups.map(({ had_another_before }) => had_another_before)).toEqual([0, 0]);
  });

  it("under of_compared the operation that came before the ring is counted", () => {
    const named = resultsOf(injuries, treatments, { question: { first_treatment: "of_compared" } });
    expect(named.target_trial!.groups[0]).toMatchObject({
      n: 5,
      had_another_before: 2,
      before: [
        { code: "surgery", n: 1 },
        { code: "rest", n: 1 },
      ],
    });
  });

  it("the words say what was found in these data and nothing else", () => {
    const rows = Object.fromEntries(trialRows(results).map(({ part, falls_short }) => [part, falls_short]));
    expect(rows.eligible).toEqual([]);
    expect(rows.treatments).toEqual([
      "1 of 4 with a ring had another treatment before it: rest.",
      "1 of 4 with tape had another treatment before it: rest.",
      "In 1 of 4 with a ring another treatment has no start, so it may have come before.",
    ]);
    expect(rows.day_0?.[1]).toBe(
      "1 of 10 injuries had returned before a treatment began and is in no group; a trial would have counted it in one.",
    );
    expect(rows.contrast).toEqual([
      "In 1 of 4 with a ring another treatment was begun before the return (surgery); each stays in its group.",
    ]);
    expect(rows.follow_up).toEqual([]);
    expect(plainWords(results).flat().join(" ")).toContain(
      "The first treatment is whichever of tape, ring and surgery began first, whatever else came before: another treatment had been begun before it in 1 of 4 with a ring (rest) and 1 of 4 with tape (rest).",
    );
  });

  it("groups that nobody could be assigned to have none", () => {
    const byGrade = resultsOf(injuries, treatments, {
      compare: { by: "grade", groups: ["2", "3"], reference: "2", adjust_for: [] },
    });
    expect(byGrade.target_trial).toBeNull();
    expect(trialRows(byGrade)).toEqual([]);
  });

  it("is left out with small cells", () => {
    const told = withoutSmallCells(results, { people: 5, injuries: 5, rows: {} });
    expect(told.target_trial).toBeNull();
    expect(told.small_cells.left_out).toContain("what came before and after the first treatment");
  });
});

describe("what came before the first treatment", () => {
  const asked = {
    treatmentsOfInterest: ["tape", "ring", "surgery"],
    treatmentWithoutStart: "left_out",
  } as const;
  const earlierOf = (rows: readonly Row[]) => {
    const bytes = (own: readonly Row[]) => {
      const columns = [...new Set(own.flatMap((row) => Object.keys(row)))];
      return new TextEncoder().encode(
        csvText(
          columns,
          own.map((row) => columns.map((one) => row[one] ?? "")),
        ),
      );
    };
    const read = readCohort(
      [
        { table: "injuries", file: "injuries.csv", bytes: bytes([injury("1")]) },
        { table: "treatments", file: "treatments.csv", bytes: bytes(rows) },
      ],
      { closedOn: null, thresholdMm: 2 },
    );
    const linked = linkTables(read.tables)[0]!;
    return earlierTreatments(linked, { ...asked, first: firstTreatment(linked, asked) });
  };

  it.each([
    ["nothing else", [begun("1", "ring", 4)], [], false],
    ["rest on an earlier day", [begun("1", "ring", 4), begun("1", "rest", 3)], ["rest"], false],
    ["rest on the same day", [begun("1", "ring", 4), begun("1", "rest", 4)], [], false],
    ["rehabilitation later", [begun("1", "ring", 4), begun("1", "rehabilitation", 40)], [], false],
    ["rest without a start", [begun("1", "ring", 4), { ...begun("1", "rest", 0), start_date: "" }], [], true],
    [
      "rest in the first place, ring in the second",
      [
        { ...begun("1", "ring", 4), start_date: "", order: "2" },
        { ...begun("1", "rest", 0), start_date: "", order: "1" },
      ],
      ["rest"],
      false,
    ],
    ["rest alone", [begun("1", "rest", 0)], [], false],
  ])("%s", (_, rows, treatmentsBefore, isNotKnown) => {
    expect(earlierOf(rows)).toEqual({ treatments: treatmentsBefore, isNotKnown });
  });
});
