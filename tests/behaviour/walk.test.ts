import { describe, expect, it } from "vitest";
import { returnCurveFigure, themes } from "../../src/charts/index.js";
import { deriveRecord, linkTables, type OutcomeRecord, toColumns } from "../../src/cohort/index.js";
import { readCohort, readTable } from "../../src/ingest/index.js";
import { tables, typeRows } from "../../src/schema/index.js";
import { answer, readPlan } from "../../src/study/index.js";
import { questionOf } from "../../src/study/question-of.js";

/*
 * The walk of one record, from a cell to a step of the curve: the same lines open DEVELOPERS.md.
 * Invented rows. The first injury is the one that is followed.
 */
const encode = (text: string) => new TextEncoder().encode(text);
const injuries = {
  table: "injuries",
  file: "injuries.csv",
  bytes:
    encode(`injury_id,person_id,injury_date,hand,finger,pulleys,grade,last_contact_date,Full climbing date
P09-1,P09,2024-03-04,left,ring,A2,Gr. III,2024-11-18,2024-06-03
P10-1,P10,2024-03-11,right,ring,A2,3,2024-10-01,2024-06-17
P11-1,P11,2024-04-02,right,middle,A2,3,2024-05-14,
`),
} as const;
const treatments = {
  table: "treatments",
  file: "treatments.csv",
  bytes: encode(`injury_id,treatment,start_date
P09-1,ring,2024-03-10
P10-1,ring,2024-03-12
P11-1,tape,2024-04-02
`),
} as const;
const plan = readPlan(
  "study.yaml",
  "study: walk\ntitle: Walk\ndata: { injuries: injuries.csv, treatments: treatments.csv }\n",
);
const read = readCohort([injuries, treatments], { closedOn: null, thresholdMm: 2 });

describe("the walk of one record", () => {
  it("readTable: cells with their line", () => {
    const [first] = readTable(injuries, tables.injuries).rows;
    expect(first).toMatchObject({ file: "injuries.csv", row: 2 });
    expect(first!.cells).toMatchObject({ grade: "Gr. III", full_climbing_date: "2024-06-03" });
  });

  it("typeRows: typed values, a blank is null", () => {
    const { typed } = typeRows(readTable(injuries, tables.injuries).rows, tables.injuries);
    expect(typed[0]!.values).toMatchObject({
      grade: "3",
      pulleys: ["A2"],
      full_climbing_date: "2024-06-03",
      sex: null,
    });
  });

  it("linkTables: the injury with its episodes", () => {
    const [linked] = linkTables(read.tables);
    expect(linked!.treatments.map(({ values }) => [values.treatment, values.start_date])).toEqual([
      ["ring", "2024-03-10"],
    ]);
  });

  it("deriveRecord: day 91, reached, first treated with a ring on day 6", () => {
    const record = deriveRecord(linkTables(read.tables)[0]!, questionOf(plan)) as OutcomeRecord;
    expect(record).toMatchObject({
      time: 91,
      end: "milestone",
      firstTreatment: "ring",
      firstTreatmentDay: 6,
      grade: "3",
    });
    expect(record.milestone).toEqual({ left: 90, right: 91, known: "day" });
  });

  it("toColumns: typed arrays", () => {
    const records = linkTables(read.tables).map(
      (linked) => deriveRecord(linked, questionOf(plan)) as OutcomeRecord,
    );
    const columns = toColumns(records);
    expect([...columns.times]).toEqual([91, 98, 42]);
    expect([...columns.events]).toEqual([1, 1, 0]);
  });

  it("answer: at day 91 two at risk, one back, half not yet", () => {
    const ring = answer(read, plan)
      .curves.find(({ family }) => family === "compared")!
      .curves.find(({ label }) => label === "ring")!;
    expect(ring.points.find(({ day }) => day === 91)).toMatchObject({
      at_risk: 2,
      events: 1,
      not_yet: 0.5,
      returned: 0.5,
    });
  });

  it("returnCurveFigure: the step in the specification's data", () => {
    const family = answer(read, plan).curves.find((one) => one.family === "compared")!;
    const { spec, description } = returnCurveFigure({ family, plan }, themes.screen);
    expect(JSON.stringify(spec)).toContain('"day":91');
    expect(description).toContain("ring");
  });
});
