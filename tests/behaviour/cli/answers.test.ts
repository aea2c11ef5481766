import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { PassThrough, Readable } from "node:stream";
import Papa from "papaparse";
import { beforeAll, describe, expect, it } from "vitest";
import { confirm } from "../../../src/cli/confirm.js";
import { command, folderWith, soundSheet, soundStudy } from "./run-command.js";

type Line = Record<string, string>;

const doubtful = `${soundSheet}P77,2024-05-02,left,ring,A2|A3,IV,tape,2024-05-04,2024-08-19,2024-12-01
P78,2024-05-03,left,thumb,A2,3,tape,2024-05-04,2024-08-19,2024-12-01
`;
const withAnswers = soundStudy.replace(
  "  single_sheet: sheet.csv",
  "  single_sheet: sheet.csv\n  answers: answers.csv",
);
const linesOf = (path: string) => Papa.parse<Line>(readFileSync(path, "utf8").trim(), { header: true }).data;

describe("queries answered by the site, from the first check to a report that recomputes", () => {
  let folder = "";
  const inFolder = (name: string) => join(folder, name);
  beforeAll(() => {
    folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": doubtful });
  });

  it("check --queries writes the list and says that it holds values", async () => {
    const { code, stdout } = await command(folder, "check", "study.yaml", "--queries", "answers.csv");
    expect(code).toBe(1);
    expect(stdout).toContain("keep it at the site");
    expect(linesOf(inFolder("answers.csv")).map(({ person, rule }) => [person, rule])).toEqual([
      ["P77", "grade-without-letter"],
      ["P78", "thumb-with-grade"],
    ]);
  });

  it("check --by person puts the queries under the person, each with its id", async () => {
    const { stdout } = await command(folder, "check", "study.yaml", "--by", "person");
    const [{ id } = { id: "" }] = linesOf(inFolder("answers.csv"));
    expect(stdout).toMatch(new RegExp(`Person P77\\n[\\s\\S]*${id}[\\s\\S]*Person P78\\n`));
  });

  it("filled in and named in the study file, the answers take effect, and the sheet is as it was", async () => {
    const answer: Record<string, Line> = {
      "grade-without-letter": { answer: "change", new_value: "4a", answered_by: "coordinator-7" },
      "thumb-with-grade": { answer: "leave-out", answered_by: "coordinator-7" },
    };
    const filled = linesOf(inFolder("answers.csv")).map((line) => ({ ...line, ...answer[line.rule!] }));
    writeFileSync(inFolder("answers.csv"), Papa.unparse(filled));
    writeFileSync(inFolder("study.yaml"), withAnswers);
    const { code, stdout } = await command(folder, "check", "study.yaml");
    expect(code).toBe(1);
    expect(stdout).toContain("sheet.csv (single_sheet): 6 rows read = 5 used + 1 set aside");
    expect(stdout).toContain("answers.csv (answers): 2 lines read = 2 used + 0 not answered yet");
    expect(stdout).toContain("1 change, 1 leave-out; cells changed: 1, rows left out: 1");
    expect(readFileSync(inFolder("sheet.csv"), "utf8")).toBe(doubtful);
  });

  it("the report counts them, its manifest holds the fingerprint, and it recomputes", async () => {
    expect((await command(folder, "report", "study.yaml")).code).toBe(0);
    const results = JSON.parse(readFileSync(inFolder("report/results.json"), "utf8"));
    expect(results.answers).toEqual({
      file: "answers.csv",
      read: 2,
      blank: 0,
      used: { stands: 0, change: 1, "leave-out": 1 },
      repeated: 0,
      not_used: { stale: 0, contradictory: 0, unreadable: 0 },
      cells_changed: 1,
      rows_left_out: 1,
    });
    const manifest = JSON.parse(readFileSync(inFolder("report/manifest.json"), "utf8"));
    expect(manifest.inputs.map(({ name }: { name: string }) => name)).toEqual(["sheet.csv", "answers.csv"]);
    expect((await command(folder, "recompute", "report")).stdout).toContain("the same, byte for byte");
  });

  it("nothing of a person's values is in the page", () => {
    const page = readFileSync(inFolder("report/report.html"), "utf8");
    expect(page).toContain("Answers of the site");
    for (const value of ["P77", "P78", "coordinator-7", "2024-05-02", "2024-08-19", "q-"])
      expect(page).not.toContain(value);
  });

  it("a list is never written over without --replace, and a missing file of answers is said", async () => {
    const refused = await command(folder, "check", "study.yaml", "--queries", "answers.csv");
    expect(refused.code).toBe(4);
    expect(refused.stderr).toContain("add --replace: the answers in it are then carried over");
    const without = folderWith({ "study.yaml": withAnswers, "sheet.csv": doubtful });
    const { code, stderr } = await command(without, "check", "study.yaml");
    expect(code).toBe(3);
    expect(stderr).toContain('file of answers "');
  });

  it("answers that cannot be used are said by check, none is dropped in silence", async () => {
    const [first] = linesOf(inFolder("answers.csv"));
    writeFileSync(
      inFolder("answers.csv"),
      Papa.unparse([
        { ...first, answer: "stands", new_value: "" },
        { ...first, answer: "leave-out", new_value: "" },
        { ...first, id: "q-0000-0000-0000" },
        { ...first, id: "q-0000-0000-0001", answer: "maybe" },
      ]),
    );
    const { stdout } = await command(folder, "check", "study.yaml");
    expect(stdout).toContain(
      "4 lines read = 0 used + 0 not answered yet + 1 stale + 2 contradictory + 1 unreadable",
    );
    expect(stdout).toContain("has two answers that contradict each other");
    expect(stdout).toContain("is the id of a query that is no longer raised");
    expect(stdout).toContain('"maybe" is not one of the words');
  });
});

describe("a list that takes the place of an earlier one", () => {
  const list = ["check", "study.yaml", "--queries", "list.csv"] as const;
  /** A folder with a list of which the first line is answered. */
  const answeredList = async (change: Line) => {
    const folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": doubtful });
    await command(folder, ...list);
    const path = join(folder, "list.csv");
    const [first, ...others] = linesOf(path);
    writeFileSync(path, Papa.unparse([{ ...first, ...change }, ...others]));
    return { folder, path, before: readFileSync(path, "utf8") };
  };
  const answer = {
    answer: "change",
    new_value: "4a",
    answered_by: "coordinator-7",
    answered_on: "2025-02-03",
  };

  it("holds the answers given before, also where the study file does not name the list", async () => {
    const { folder, path } = await answeredList(answer);
    const { code, stdout } = await command(folder, ...list, "--replace");
    expect(code).toBe(1);
    expect(stdout).toContain("1 answered line was carried over.");
    expect(linesOf(path)).toMatchObject([
      { rule: "grade-without-letter", state: "answered", ...answer },
      { rule: "thumb-with-grade", state: "open", answer: "" },
    ]);
    const again = readFileSync(path, "utf8");
    await command(folder, ...list, "--replace");
    expect(readFileSync(path, "utf8")).toBe(again);
  });

  it("keeps an answer whose row has changed, and marks it", async () => {
    const { folder, path } = await answeredList(answer);
    writeFileSync(join(folder, "sheet.csv"), doubtful.replace(",IV,", ",4b,"));
    const { stdout } = await command(folder, ...list, "--replace");
    expect(stdout).toContain("1 line belongs to queries that are no longer raised");
    expect(linesOf(path).at(-1)).toMatchObject({
      rule: "grade-without-letter",
      state: "no-longer-raised",
      ...answer,
    });
  });

  it("keeps what somebody wrote beside a query that is still open", async () => {
    const { folder, path } = await answeredList({ answered_by: "coordinator-8" });
    await command(folder, ...list, "--replace");
    expect(linesOf(path)[0]).toMatchObject({ state: "open", answer: "", answered_by: "coordinator-8" });
  });

  it.each<readonly [string, Line, string]>([
    [
      "a word that is no answer",
      { answer: "maybe" },
      'row 2: what is written in the column "answer" cannot be read',
    ],
    ["a day that is none", { ...answer, answered_on: "soon" }, 'the column "answered_on" cannot be read'],
    ["a column of the site's own", { ...answer, remark: "see the letter" }, '"remark"'],
  ])("is refused where something would be lost: %s", async (_, change, said) => {
    const { folder, path, before } = await answeredList(change);
    const { code, stderr } = await command(folder, ...list, "--replace");
    expect(code).toBe(4);
    expect(stderr).toContain(said);
    expect(readFileSync(path, "utf8")).toBe(before);
  });

  it.each(["sheet.csv", "study.yaml", "notes.csv"])(
    "never takes the place of %s, which is no list",
    async (file) => {
      const folder = folderWith({
        "study.yaml": soundStudy,
        "sheet.csv": doubtful,
        "notes.csv": "a,b\n1,2\n",
      });
      const before = readFileSync(join(folder, file), "utf8");
      const { code } = await command(folder, "check", "study.yaml", "--queries", file, "--replace");
      expect(code).toBe(4);
      expect(readFileSync(join(folder, file), "utf8")).toBe(before);
    },
  );

  it.each([
    ["yes", true],
    ["what\ny", true],
    ["no", false],
    ["", false],
  ])("somebody at a terminal is asked: %j", async (typed, agreed) => {
    const input = Readable.from([`${typed}\n`]);
    expect(await confirm("Write it?", { input, output: new PassThrough().resume() })).toBe(agreed);
  });
});
