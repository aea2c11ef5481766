import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { beforeAll, describe, expect, it } from "vitest";
import { buildReport } from "../../../src/cli/build-report.js";
import { openStudy } from "../../../src/cli/study-input.js";
import { share } from "../../../src/cli/verbs/share.js";
import { keyText } from "../../../src/privacy/index.js";
import { resultsText } from "../../../src/report/index.js";
import { talkOver } from "../../../src/report/talk/index.js";
import { resultsOf } from "../../../src/run/index.js";
import type { DeskMachine } from "../../../src/workbench/engine/copy.js";
import { deskOn } from "../../../src/workbench/engine/desk.js";
import type { NamedBytes } from "../../../src/workbench/engine/tasks.js";
import { temporaryFolder } from "../../temporary-folders.js";
import { deskMachine } from "./desk-machine.js";

const quiet = () => undefined;
const silent = { say: quiet, notice: quiet, progress: quiet };

let machine: DeskMachine;
beforeAll(async () => {
  machine = await deskMachine();
});

const committed = (folder: string, names: readonly string[]): NamedBytes[] =>
  names.map((name) => ({ name, bytes: readFileSync(`synthetic-data/${folder}/${name}`) }));

const linked = ["injuries", "treatments", "imaging", "visits", "sites"].map(
  (table) => `synthetic-${table}.csv`,
);
const textFile = (name: string, text: string): NamedBytes => ({
  name,
  bytes: new TextEncoder().encode(text),
});

const ownColumns = textFile(
  "our list.csv",
  [
    "Patient;Unfalldatum;Seite;Finger;Ringband;Grad;Behandlung;Beginn;Wieder voll geklettert;Letzter Kontakt",
    "A1;04.03.2024;links;Ringfinger;A2;3;Ring;10.03.2024;03.06.2024;18.11.2024",
    "A2;20.03.2024;rechts;Mittelfinger;A4;2;Tape;21.03.2024;22.05.2024;02.09.2024",
    "A3;11.04.2024;rechts;Ringfinger;A2;IV;Ring;15.04.2024;;01.10.2024",
    "A4;12.04.2024;rechts;Ringfinger;A2;2;Tape;15.04.2024;20.06.2024;01.10.2024",
  ].join("\n"),
);

const turned = [
  "Patient;A1;A2;A3",
  "Unfalldatum;04.03.2024;20.03.2024;11.04.2024",
  "Seite;links;rechts;rechts",
  "Finger;Ringfinger;Mittelfinger;Ringfinger",
  "Ringband;A2;A4;A2",
  "Grad;3;2;2",
  "Letzter Kontakt;18.11.2024;02.09.2024;01.10.2024",
].join("\n");

describe("the desk of the workbench", () => {
  it("answers a study that was brought with its tables as the command line does, to the last digit", async () => {
    const desk = deskOn(machine, quiet);
    const brought = await desk.bring(committed("registry", ["study.yaml", ...linked]));
    expect(brought).toMatchObject({ kind: "study", synthetic: true });
    const { bytes } = await desk.takeAway();
    const files = unzipSync(bytes);
    const { files: expected } = await buildReport(
      "synthetic-data/registry/study.yaml",
      { choice: "written", smallest: 5 },
      silent,
    );
    for (const { path, content } of expected.filter(
      ({ path }) => !path.endsWith(".png") && path !== "manifest.json",
    )) {
      const text = typeof content === "string" ? content : new TextDecoder().decode(content);
      expect(new TextDecoder().decode(files[`report/${path}`]), path).toBe(text);
    }
    expect(Object.keys(files).filter((path) => !/^(?:report|copy)\//.test(path))).toEqual(
      ["study.yaml", "sharing.key", ...linked].sort(),
    );
  });

  it("gives an archive from which the command line computes the same results", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring(committed("one-clinic", ["synthetic-single-sheet.csv"]));
    await desk.ask({ closedOn: "2023-11-02" });
    const { name, bytes } = await desk.takeAway();
    expect(name).toBe("synthetic-our-outcomes.zip");
    const folder = temporaryFolder();
    const files = unzipSync(bytes);
    for (const [path, content] of Object.entries(files))
      if (!path.includes("/")) writeFileSync(join(folder, path), content);
    const study = await openStudy(join(folder, "study.yaml"), silent);
    const results = resultsText(await resultsOf(study, { choice: "written", smallest: 5 }));
    expect(new TextDecoder().decode(files["report/results.json"])).toBe(results);
  });

  it("adds the copy that the command line makes with the same key, and draws a key where none is brought", async () => {
    const desk = deskOn(machine, quiet);
    const own = textFile("sharing.key", keyText(machine.newKey()));
    await desk.bring([...committed("one-clinic", ["study.yaml", ...linked]), own]);
    const { bytes, notice } = await desk.takeAway();
    expect(notice).toBeNull();
    const files = unzipSync(bytes);
    const folder = temporaryFolder();
    writeFileSync(join(folder, "sharing.key"), own.bytes, { mode: 0o600 });
    const [into, key] = [join(folder, "copy"), join(folder, "sharing.key")];
    await share("synthetic-data/one-clinic/study.yaml", { into, key }, silent);
    const names = readdirSync(into).sort();
    expect(names).toContain("disclosure.html");
    expect(
      Object.keys(files)
        .filter((path) => path.startsWith("copy/"))
        .sort(),
    ).toEqual(names.map((name) => `copy/${name}`));
    for (const name of names)
      expect(Buffer.from(files[`copy/${name}`]!).equals(readFileSync(join(into, name))), name).toBe(true);
    await desk.bring(committed("one-clinic", ["study.yaml", ...linked]));
    expect(unzipSync((await desk.takeAway()).bytes)["sharing.key"]).toBeDefined();
    await expect(desk.bring([textFile("sharing.key", "no key")])).rejects.toThrow(
      /sharing\.key: the file is not a key file/,
    );
  });

  it("makes the page to talk over that the command line makes, and says why there is none", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring(committed("registry", ["study.yaml", ...linked]));
    const { talk } = await desk.read();
    expect(talk.find(({ name }) => name === "grade 3, ring")).toMatchObject({ n: "43", whyNot: null });
    expect(talk.find(({ name }) => name === "grade 4b")!.whyNot).toContain("a page needs 20");
    const { name, bytes } = await desk.talk("grade 3, ring");
    expect(name).toBe("synthetic-talk-grade-3-ring.html");
    const study = await openStudy("synthetic-data/registry/study.yaml", silent);
    const results = await resultsOf(study, { choice: "written", smallest: 5 });
    const { version, sha256 } = machine;
    const made = await talkOver(results, {
      name: "grade 3, ring",
      version,
      sha256,
      fontCss: machine.fontCss(),
    });
    expect(made).toMatchObject({ made: true, page: new TextDecoder().decode(bytes) });
    await expect(desk.talk("grade 4b")).rejects.toThrow("There are 7 injuries in the group");
  });

  it("agrees on the columns of a site's own sheet, settles a query, and counts the row then", async () => {
    const desk = deskOn(machine, quiet);
    const brought = await desk.bring([ownColumns]);
    if (brought.kind !== "sheet") throw new Error("the sheet is in columns of its own");
    let columns = brought.columns;
    expect(columns.records).toBe(4);
    while (columns.questions.length > 0) {
      const { question, choices } = columns.questions[0]!;
      const answer = (choices.find(({ answer: one }) => one === "ask") ?? choices[0]!).answer;
      columns = await desk.columns({ kind: "answer", question, answer });
    }
    const before = await desk.check();
    expect(before.accounts[0]).toMatchObject({ read: 4, used: 3, setAside: 1 });
    const queries = before.queries.find(
      ({ column, severity }) => severity === "set-aside" && column !== null,
    )!;
    const after = await desk.settle({ ids: queries.ids, answer: "change", newValue: "4a" });
    expect(after.accounts[0]).toMatchObject({ read: 4, used: 4, setAside: 0 });
    expect(after.answered).toBe(1);
    const back = await desk.settle({ ids: queries.ids, answer: null, newValue: null });
    expect(back.accounts[0]).toMatchObject({ read: 4, used: 3, setAside: 1 });
    const asked = await desk.ask({});
    expect(asked.groupsOf.first_treatment).toEqual([
      { term: "tape", label: "tape", n: 2 },
      { term: "ring", label: "ring", n: 1 },
    ]);
  });

  it("offers every grade once one is chosen, and counts the groups of the chosen ones", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring(committed("registry", ["study.yaml", ...linked]));
    const all = await desk.ask({});
    const one = await desk.ask({ grades: ["3"] });
    expect(one.groupsOf.grade).toEqual(all.groupsOf.grade);
    expect(one.injuries).toBe(all.groupsOf.grade!.find(({ term }) => term === "3")!.n);
    const treated = (asked: typeof one) => asked.groupsOf.first_treatment!.reduce((sum, { n }) => sum + n, 0);
    expect(treated(one)).toBeLessThan(treated(all));
    const two = await desk.ask({ grades: ["3", "4a"] });
    expect(two.injuries).toBe(one.injuries + all.groupsOf.grade!.find(({ term }) => term === "4a")!.n);
  });

  it("takes an answer that was not proposed, and says what could be answered where it cannot", async () => {
    const desk = deskOn(machine, quiet);
    const brought = await desk.bring([ownColumns]);
    if (brought.kind !== "sheet") throw new Error("the sheet is in columns of its own");
    const { question, choices, other } = brought.columns.questions.find((each) =>
      each.question.includes("IV"),
    )!;
    expect(choices.map(({ answer }) => answer)).not.toContain("3");
    expect(other).toMatch(/any of: 1, 2, 3/);
    await expect(desk.columns({ kind: "answer", question, answer: "IIII" })).rejects.toThrow(
      /"IIII" is not a possible answer\. .*any of: 1, 2, 3/,
    );
    const settled = await desk.columns({ kind: "answer", question, answer: "3" });
    expect(settled.questions.map((each) => each.question)).not.toContain(question);
    expect((await desk.check()).accounts[0]).toMatchObject({ read: 4, used: 4 });
  });

  it("refuses a sheet in which each person has a column, and says how to change it", async () => {
    await expect(deskOn(machine, quiet).bring([textFile("turned.csv", turned)])).rejects.toThrow(
      /each person has a column[\s\S]*transposed/,
    );
  });

  it("lets another column be chosen, and taken back", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring([ownColumns]);
    const chosen = await desk.columns({ kind: "column", field: "first_visit", column: "Beginn" });
    expect(chosen.fields.find(({ field }) => field === "first_visit")).toMatchObject({
      sources: ["Beginn"],
      confidence: "said",
    });
    const back = await desk.columns({ kind: "start-over" });
    expect(back.fields.find(({ field }) => field === "first_visit")?.sources).toEqual([]);
  });

  it("asks how dates are written where no mapping says it, and keeps the order for the archive", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring([
      textFile(
        "sheet.csv",
        [
          "person,injury_date,hand,finger,pulleys,grade,full,last_contact",
          "P1,13.01.2024,left,ring,A2,2,1.3.2024,1.6.2024",
          "P2,14.01.2024,left,ring,A2,3,1.4.2024,1.6.2024",
        ].join("\n"),
      ),
    ]);
    expect(await desk.check()).toMatchObject({ dateOrder: "year-first", accounts: [{ read: 2, used: 0 }] });
    await desk.ask({ dateOrder: "day-first" });
    expect(await desk.check()).toMatchObject({ dateOrder: "day-first", accounts: [{ read: 2, used: 2 }] });
    expect((await desk.ask({})).choices).toMatchObject({ by: "grade" });
    const study = new TextDecoder().decode(unzipSync((await desk.takeAway()).bytes)["study.yaml"]);
    expect(study).toContain("date_order: day-first");
  });

  it("begins with a question that the injuries can answer", async () => {
    const desk = deskOn(machine, quiet);
    await desk.bring([
      textFile(
        "sheet.csv",
        [
          "person,injury_date,hand,finger,pulleys,grade,full,last_contact",
          "P1,2024-01-01,left,ring,A2,2,2024-03-01,2024-06-01",
          "P2,2024-01-02,left,ring,A2,3,2024-04-01,2024-06-01",
          "P3,2024-01-03,left,ring,A2,3,,2024-06-01",
        ].join("\n"),
      ),
    ]);
    await desk.check();
    const { choices } = await desk.ask({});
    expect(choices).toMatchObject({ by: "grade", reference: "3", groups: ["2", "3"], adjustFor: [] });
    const { families } = await desk.read();
    expect(families[0]!.curves.map(({ label, n }) => [label, n])).toEqual([
      ["grade 2", 1],
      ["grade 3", 2],
    ]);
  });

  it.each([
    ["a study file without its tables", () => committed("registry", ["study.yaml"]), /was not brought/],
    ["a text that is no table", () => [textFile("letter.txt", "Dear colleague")], /letter\.txt/],
    [
      "two sheets in columns of their own",
      () => [ownColumns, { ...ownColumns, name: "two.csv" }],
      /Bring one spreadsheet/,
    ],
    [
      "the same table twice",
      () => [
        ...committed("registry", ["synthetic-injuries.csv"]),
        { ...committed("registry", ["synthetic-injuries.csv"])[0]!, name: "again.csv" },
      ],
      /same table/,
    ],
    ["an empty file", () => [textFile("empty.csv", "")], /empty\.csv/],
  ])("says what is the matter with %s, and how to go on", async (_, files, words) => {
    await expect(deskOn(machine, quiet).bring(files())).rejects.toThrow(words);
  });
});
