import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/index.js";
import { type QueryCode, StopError } from "../../../../src/schema/index.js";
import { codesOf, fileOf, sheetOf, study } from "../sheets.js";
import { answered, answersOf, forSite, idOf, type Line } from "./answers.js";

const gradeFour = [sheetOf("injuries", [{ grade: "IV" }, { injury_id: "P10-1", person_id: "P10" }])];
const second = { injury_id: "P09-2", injury_date: "2024-03-10" };

describe("answers of the site", () => {
  it("stands: the query is closed, the row stays as it is", () => {
    const doubtful = [sheetOf("injuries", [{}, second])];
    const id = idOf(doubtful, "possible-duplicate");
    const { queries, answers, accounts } = answered(doubtful, [{ id, answer: "stands" }]);
    expect(queries).toEqual([]);
    expect(accounts[0]).toMatchObject({ read: 2, used: 2 });
    expect(answers).toMatchObject({
      read: 1,
      used: { stands: 1, change: 0, "leave-out": 0 },
      cellsChanged: 0,
    });
  });

  it("stands: a row that cannot be used as it stands stays set aside, and that is said", () => {
    const id = idOf(gradeFour, "grade-without-letter");
    const { queries, accounts, answers } = answered(gradeFour, [{ id, answer: "stands" }]);
    expect(codesOf(queries)).toEqual(["answer-leaves-row-aside"]);
    expect(accounts[0]).toMatchObject({ read: 2, used: 1 });
    expect(answers?.used.stands).toBe(1);
  });

  it("change: the new value is typed and checked like any other cell, and the bytes of the file are left alone", () => {
    const before = Buffer.from(gradeFour[0]!.bytes).toString("hex");
    const id = idOf(gradeFour, "grade-without-letter");
    const good = answered(gradeFour, [{ id, answer: "change", new_value: "Gr. 3" }]);
    expect(good.tables.injuries.map(({ values }) => values.grade)).toEqual(["3", "3"]);
    expect(good.queries).toEqual([]);
    expect(good.answers).toMatchObject({ cellsChanged: 1, used: { change: 1 } });
    const odd = answered(gradeFour, [{ id, answer: "change", new_value: "7" }]);
    expect(codesOf(odd.queries)).toEqual(["term-unknown"]);
    expect(odd.accounts[0]).toMatchObject({ read: 2, used: 1 });
    expect(Buffer.from(gradeFour[0]!.bytes).toString("hex")).toBe(before);
  });

  it("change: the word blank empties the cell", () => {
    const sources = [sheetOf("injuries", [{ age_at_injury: "thirty" }])];
    const id = idOf(sources, "number-unreadable");
    const { tables, queries } = answered(sources, [{ id, answer: "change", new_value: "blank" }]);
    expect(tables.injuries[0]!.values.age_at_injury).toBeNull();
    expect(queries).toEqual([]);
  });

  it("leave-out: the row is set aside with that reason, rows that name it follow, and the account balances", () => {
    const sources = [
      sheetOf("injuries", [{}, { ...second, finger: "middle" }]),
      sheetOf("visits", [{ date: "2024-11-19" }]),
    ];
    const withQuery = sheetOf("injuries", [{ finger: "thumb" }, { ...second, finger: "middle" }]);
    const withThumb = [withQuery, sources[1]!];
    const id = idOf(withThumb, "thumb-with-grade");
    const { accounts, queries, answers } = answered(withThumb, [{ id, answer: "leave-out" }]);
    expect(accounts.map(({ read, used }) => [read, used])).toEqual([
      [2, 1],
      [1, 0],
    ]);
    expect(accounts[0]!.setAside.map(({ query }) => query.code)).toEqual(["left-out-by-answer"]);
    expect(accounts[1]!.setAside.map(({ query }) => query.code)).toEqual(["injury-set-aside"]);
    expect(codesOf(queries)).toEqual(["injury-set-aside"]);
    expect(answers).toMatchObject({ rowsLeftOut: 1 });
  });

  it("leave-out of one of two copies lets the other one in", () => {
    const copies = [sheetOf("injuries", [{}, { grade: "2", pulley_extents: "partial" }])];
    const raised = forSite(copies).open.filter(({ query }) => query.code === "identifier-twice");
    expect(raised).toHaveLength(2);
    expect(raised[0]!.id).not.toBe(raised[1]!.id);
    const { tables, queries } = answered(copies, [{ id: raised[1]!.id, answer: "leave-out" }]);
    expect(tables.injuries.map(({ values }) => values.grade)).toEqual(["3"]);
    expect(queries).toEqual([]);
  });

  it("a changed cell raises another query, whose answer is held as well", () => {
    const id = idOf(gradeFour, "grade-without-letter");
    const first: Line = { id, answer: "change", new_value: "4a" };
    const next = idOf(gradeFour, "grade-4-needs-several-or-complication", [first]);
    const { queries, answers } = answered(gradeFour, [{ id: next, answer: "stands" }, first]);
    expect(queries).toEqual([]);
    expect(answers).toMatchObject({ used: { stands: 1, change: 1 }, notUsed: { stale: 0 } });
    const third = answered(gradeFour, [first, { id: next, answer: "change", new_value: "3" }]);
    expect(third.tables.injuries[0]!.values.grade).toBe("3");
  });

  it("ids of other queries stay, whatever an answer has changed: even the cells that name the row", () => {
    const sources = [sheetOf("single_sheet", [{ injury_date: "2O24-03-04", age: "old", grade: "3" }])];
    const age = idOf(sources, "number-unreadable");
    const day = idOf(sources, "date-unreadable");
    const changed: Line = { id: day, answer: "change", new_value: "2024-03-04" };
    expect(idOf(sources, "number-unreadable", [changed])).toBe(age);
  });

  it("beyond 200 of a kind every query has its id, and its answer takes effect", () => {
    const rows = Array.from({ length: 450 }, (_, place) => ({
      injury_id: `i${place}`,
      person_id: `p${place}`,
      grade: "IV",
      finger: "thumb",
    }));
    const many = [sheetOf("injuries", rows)];
    const raised = forSite(many).open.filter(({ query }) => query.code === "grade-without-letter");
    expect(new Set(raised.map(({ id }) => id)).size).toBe(450);
    const plain = readCohort(many, study);
    expect(plain.queries.filter(({ code }) => code === "grade-without-letter")).toHaveLength(200);
    const far = raised.find(({ person }) => person === "p433")!;
    const { tables } = answered(many, [{ id: far.id, answer: "change", new_value: "3" }]);
    expect(tables.injuries.map(({ values }) => values.person_id)).toEqual(["p433"]);
  });
});

const id = idOf(gradeFour, "grade-without-letter");
const change: Line = { id, answer: "change", new_value: "4b" };

describe("answers that cannot be used are said, each", () => {
  it.each<readonly [string, QueryCode, readonly Line[], object]>([
    ["an id that no query has", "answer-stale", [{ id: "q-0000-0000-0000", answer: "stands" }], { stale: 1 }],
    [
      "two answers that differ",
      "answer-contradictory",
      [change, { id, answer: "stands" }],
      { contradictory: 2 },
    ],
    [
      "two new values that differ",
      "answer-contradictory",
      [change, { ...change, new_value: "4a" }],
      { contradictory: 2 },
    ],
    ["a change without a new value", "answer-incomplete", [{ id, answer: "change" }], { unreadable: 1 }],
    ["a new value without an answer", "answer-incomplete", [{ id, new_value: "4a" }], { unreadable: 1 }],
    ["another word", "term-unknown", [{ id, answer: "yes" }], { unreadable: 1 }],
    ["a line without an id", "value-missing", [{ answer: "stands" }], { unreadable: 1 }],
    ["columns that were moved", "answer-elsewhere", [{ ...change, rule: "age-under-17" }], { unreadable: 1 }],
  ])("%s: %s", (_, code, lines, notUsed) => {
    const { queries, answers, accounts } = answered(gradeFour, lines);
    expect(codesOf(queries)).toContain(code);
    expect(codesOf(queries), "the query stays open").toContain("grade-without-letter");
    expect(answers?.notUsed).toEqual({ stale: 0, contradictory: 0, unreadable: 0, ...notUsed });
    expect(accounts[0]).toMatchObject({ read: 2, used: 1 });
  });

  it("a change of a query about a whole file is not possible", () => {
    const sources = [sheetOf("injuries"), sheetOf("visits", [])];
    const whole = idOf(sources, "file-header-only");
    const { queries } = answered(sources, [{ id: whole, answer: "change", new_value: "x" }]);
    expect(codesOf(queries)).toEqual(["file-header-only", "answer-not-possible"]);
  });

  it("a change to what stood there already leaves the query open and says so", () => {
    const { queries } = answered(gradeFour, [{ ...change, new_value: "IV" }]);
    expect(codesOf(queries)).toEqual(["grade-without-letter", "answer-without-effect"]);
  });

  it("answers to two queries about one cell that disagree are contradictory, both", () => {
    const sources = [sheetOf("injuries", [{ grade: "4a", bowstringing: "visible" }])];
    const one = idOf(sources, "grade-4a-visible-bowstringing");
    const other = idOf(sources, "grade-4-needs-several-or-complication");
    const { tables, answers } = answered(sources, [
      { id: one, answer: "change", new_value: "4b" },
      { id: other, answer: "change", new_value: "3" },
    ]);
    expect(tables.injuries[0]!.values.grade).toBe("4a");
    expect(answers?.notUsed.contradictory).toBe(2);
  });

  it("lines that say the same twice count once, blank ones wait", () => {
    const { answers, queries } = answered(gradeFour, [change, change, { id: "q-1111-1111-1111" }]);
    expect(answers).toMatchObject({ read: 3, blank: 1, repeated: 1, used: { change: 1 }, cellsChanged: 1 });
    expect(codesOf(queries)).toEqual(["grade-4-needs-several-or-complication"]);
  });

  it("a file that is no list of queries stops the run", () => {
    const answers = { file: "answers.csv", bytes: fileOf("sites", "site_id,name\na,b\n").bytes };
    expect(() => readCohort(gradeFour, { ...study, answers })).toThrow(StopError);
  });

  it("a list without a line answers nothing", () => {
    const { answers } = readCohort(gradeFour, { ...study, answers: answersOf([]) });
    expect(answers).toMatchObject({ read: 0, blank: 0, repeated: 0 });
  });
});
