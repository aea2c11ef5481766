import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { command, filesIn, folderWith, soundStudy } from "./run-command.js";

const two = (number: number) => String(number).padStart(2, "0");
/** 24 injuries of grade 2 under tape, and two of grade 3 under a ring; all back in May. */
const sheet = [
  "person,injury_date,hand,finger,pulleys,grade,treatment,treatment_start,full,last_contact",
  ...Array.from(
    { length: 26 },
    (_, i) =>
      `P${two(i)},2024-03-${two(1 + (i % 20))},left,ring,A4,${i < 24 ? "2,tape" : "3,ring"},2024-03-25,2024-05-${two(1 + i)},2024-11-18`,
  ),
].join("\n");

let folder = "";
beforeAll(async () => {
  folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": `${sheet}\n` });
  const { code, stderr } = await command(folder, "report", "study.yaml");
  expect(code, stderr).toBe(0);
  // a whole report, with its drawings
}, 240_000);
const read = (path: string) => readFileSync(join(folder, path), "utf8");

describe("a page to talk over, on the command line", () => {
  it("is written from a study file and from a report folder, the same to the byte, beside them", async () => {
    const { code, stdout, stderr } = await command(folder, "talk", "study.yaml");
    expect(code, stderr).toBe(0);
    expect(stdout).toContain("A page to talk over: talk.html");
    expect(stdout).toContain("A licensed clinician decides.");
    const again = await command(folder, "talk", "report", "--into", "again.html");
    expect(again.code, again.stderr).toBe(0);
    expect(read("again.html")).toBe(read("talk.html"));
    expect(filesIn(join(folder, "report"))).not.toContain("talk.html");
    expect(read("talk.html")).toContain("26 injuries in 26 people");
  });

  it("is about the group that is asked for, which names the file", async () => {
    const { code, stderr } = await command(folder, "talk", "report", "--for", "Grade 2 tape");
    expect(code, stderr).toBe(0);
    expect(read("talk-grade-2-tape.html")).toContain("of grade 2, first treated with tape");
  });

  it("lists what it can be about, and why not", async () => {
    const { code, stdout } = await command(folder, "talk", "report", "--list");
    expect(code).toBe(0);
    expect(stdout.trim().split("\n")).toEqual([
      "A page can be about (--for):",
      '  "all injuries" (26 injuries)',
      '  "grade 2" (24 injuries)',
      '  "tape" (24 injuries)',
      '  "grade 2, tape" (24 injuries)',
      "No page, since it needs 20 injuries, of as many people:",
      '  "grade 3" (2 injuries)',
      '  "ring" (2 injuries)',
      '  "grade 3, ring" (2 injuries)',
    ]);
  });

  it("is not made for too few; the message says why, and what could be asked instead", async () => {
    const { code, stderr } = await command(folder, "talk", "report", "--for", "grade 3", "--into", "no.html");
    expect(code).toBe(3);
    expect(stderr).toContain("There are 2 injuries in the group “grade 3”, and a page needs 20");
    expect(stderr).toContain("A page can be about “all injuries”, “grade 2”, “tape” or “grade 2, tape”.");
    expect(filesIn(folder)).not.toContain("no.html");
  });

  it("replaces a page of its own where that is asked for, and nothing else", async () => {
    writeFileSync(join(folder, "letter.html"), "a letter");
    const into = (name: string, ...more: string[]) =>
      command(folder, "talk", "report", "--into", name, ...more);
    expect((await into("again.html")).stderr).toContain("add --replace");
    expect((await into("again.html", "--replace")).code).toBe(0);
    expect((await into("letter.html", "--replace")).code).toBe(4);
    expect(read("letter.html")).toBe("a letter");
  });

  it("takes no results that somebody has changed", async () => {
    cpSync(join(folder, "report"), join(folder, "changed"), { recursive: true });
    writeFileSync(
      join(folder, "changed/results.json"),
      read("report/results.json").replace('"n": 24', '"n": 34'),
    );
    const { code, stderr } = await command(folder, "talk", "changed", "--into", "c.html");
    expect(code).toBe(3);
    expect(stderr).toContain("is not the file of results that a report was written with");
    expect((await command(folder, "talk", "nowhere")).code).toBe(3);
  });
});
