import { cpSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { unzipSync } from "fflate";
import { beforeAll, describe, expect, it } from "vitest";
import { thisMachine } from "../../../src/cli/machine.js";
import { deskOn } from "../../../src/workbench/engine/desk.js";
import type { NamedBytes, Tasks } from "../../../src/workbench/engine/tasks.js";
import { command, filesIn, folderWith } from "../cli/run-command.js";
import { deskMachine } from "./desk-machine.js";

const cohort = fileURLToPath(new URL("../../../synthetic-data/three-sites", import.meta.url));
const sites = ["site-a", "site-b", "site-c"];
const quiet = () => undefined;

const textFile = (name: string, text: string): NamedBytes => ({
  name,
  bytes: new TextEncoder().encode(text),
});
const fileAt = (path: string, name = path.split("/").at(-1)!): NamedBytes => ({
  name,
  bytes: readFileSync(path),
});
const textOf = ({ bytes }: NamedBytes): string => new TextDecoder().decode(bytes);

/** What the command line writes of the same files, computed once. */
let folder = "";
let desk: Tasks;
let summaries: readonly NamedBytes[] = [];
beforeAll(async () => {
  folder = folderWith({});
  cpSync(cohort, join(folder, "study"), { recursive: true });
  for (const site of sites) {
    const words = ["contribute", "study/study.yaml", "--into", `for-${site}`, "--site", site];
    expect((await command(folder, ...words)).code).toBe(0);
  }
  summaries = sites.map((site) => fileAt(join(folder, `for-${site}/synthetic-${site}-summary.json`)));
  desk = deskOn(await deskMachine(), quiet);
});

const bringStudy = () =>
  desk.bring(
    readdirSync(cohort)
      .filter((name) => /^(study\.yaml|synthetic-.*\.csv)$/.test(name))
      .map((name) => fileAt(join(cohort, name))),
  );

describe("a site's summary from the workbench", () => {
  it("has the bytes that the command line writes of the same files, and so has the page for an ethics board", async () => {
    await bringStudy();
    expect((await desk.read()).sites).toEqual(sites);
    const { summary, page, site, fingerprint, first, figures } = await desk.contribute("site-b");
    expect(site).toBe("site-b");
    for (const file of [summary, page])
      expect(textOf(file), file.name).toBe(readFileSync(join(folder, "for-site-b", file.name), "utf8"));
    expect(JSON.parse(textOf(summary))).toMatchObject({ agreed: { sha256: fingerprint } });
    const shown = [...first, ...figures].map(({ markup }) => markup).join("");
    expect(shown).toContain("fewer than 5 people are behind it");
    expect(shown).toContain("What stays at the site");
    expect(shown).toContain("not advice for one finger");
  });

  it("of a few people is refused in a sentence, and nothing is made", async () => {
    const sheet = [
      "person,injury_date,hand,finger,pulleys,grade,full,last_contact",
      "P1,2024-01-01,left,ring,A2,2,2024-03-01,2024-06-01",
      "P2,2024-01-02,left,ring,A2,3,2024-04-01,2024-06-01",
    ].join("\n");
    await desk.bring([textFile("sheet.csv", sheet)]);
    await desk.check();
    await desk.ask({});
    expect((await desk.read()).sites).toEqual([]);
    await expect(desk.contribute("our clinic")).rejects.toThrow(
      "Fewer than 5 people of the site are analysed, so that nothing may leave in a summary.",
    );
  });

  it("is of a sheet in a site's own columns as well, asked what all sites are asked", async () => {
    const own = readFileSync("synthetic-data/one-clinic/synthetic-single-sheet.csv");
    await desk.bring([{ name: "synthetic-our-list.csv", bytes: own }]);
    await desk.check();
    await desk.ask({});
    const asked = await desk.agree(fileAt(join(cohort, "study.yaml"), "all-sites.yaml"));
    expect(asked.choices).toMatchObject({ weeks: 13 });
    await desk.read();
    const { summary, fingerprint } = await desk.contribute("site-a");
    const { files, pooled } = await desk.poolView([summary, ...summaries.slice(1)]);
    for (const { sites: own } of files) expect(own[0]!.fingerprint).toBe(fingerprint);
    expect(pooled).toMatchObject({ sites: 3 });
  });

  it("keeps invented data marked, also under a question that says nothing of it", async () => {
    await bringStudy();
    const shared = readFileSync(join(cohort, "study.yaml"), "utf8").replace(/^synthetic: true$/m, "");
    await desk.agree(textFile("all-sites.yaml", shared));
    expect((await desk.read()).isSynthetic).toBe(true);
  });

  it("what is no study file is refused as the question, and the question stays", async () => {
    await desk.bring([fileAt("synthetic-data/one-clinic/synthetic-single-sheet.csv")]);
    const { choices } = await desk.ask({});
    await expect(desk.agree(textFile("all-sites.yaml", "weeks: many"))).rejects.toThrow(/all-sites\.yaml/);
    expect((await desk.ask({})).choices).toEqual(choices);
  });
});

describe("sites pooled in the workbench", () => {
  it("without a row of a patient: the folder that the command line writes, and the merged file", async () => {
    const into = sites.map((site) => `for-${site}`);
    expect((await command(folder, "pool", ...into, "--into", "pooled")).code).toBe(0);
    expect((await command(folder, "pool", ...into, "--only-merge", "merged.json")).code).toBe(0);
    const { drawPng } = await thisMachine();
    const empty = deskOn({ ...(await deskMachine()), drawPng }, quiet);
    const { name, bytes } = await empty.poolReport(summaries);
    expect(name).toBe("synthetic-pooled.zip");
    const files = unzipSync(bytes);
    const expected = filesIn(join(folder, "pooled")).filter((path) => path.includes("."));
    expect(Object.keys(files).sort()).toEqual(expected.map((path) => `pooled/${path}`).sort());
    for (const path of expected)
      expect(
        Buffer.from(files[`pooled/${path}`]!).equals(readFileSync(join(folder, "pooled", path))),
        path,
      ).toBe(true);
    const merged = await empty.poolMerged(summaries);
    expect(textOf(merged)).toBe(readFileSync(join(folder, "merged.json"), "utf8"));
    expect((await empty.poolView([merged])).pooled).toEqual((await empty.poolView(summaries)).pooled);
  });

  it("shows the sections of the report, the answer first, with the words of caution and the mark of invented data", async () => {
    await bringStudy();
    const before = await desk.read();
    const { files, refusal, pooled } = await desk.poolView(summaries);
    expect(await desk.read(), "what lies on the desk stays as it is").toEqual(before);
    expect(files.map(({ sites: [one] }) => one!.site)).toEqual(sites);
    expect(refusal).toBeNull();
    expect(pooled).toMatchObject({ isSynthetic: true, first: [{ id: "answer" }, { id: "by-site" }] });
    expect(pooled!.first[0]!.markup).toContain("not advice for one finger");
    expect(pooled!.first[1]!.markup).toContain("<svg");
    const further = pooled!.further.map(({ id }) => id);
    expect(further).toContain("methods");
    expect(further, "what tells of a folder that is not there yet").not.toContain("made");
  });

  it("what is no summary is said file by file, and the others are pooled", async () => {
    const [first, second] = summaries;
    const cut = textFile("cut-off.json", textOf(first!).slice(0, 5_000));
    const sheet = textFile("sheet.json", "person,injury_date\nP1,2024-01-01");
    const other = textFile("settings.json", "{}");
    const { files, pooled } = await desk.poolView([cut, first!, sheet, other, second!]);
    expect(files.map(({ refusal }) => refusal?.split("\n")[0])).toEqual([
      expect.stringMatching(/^cut-off\.json.*: this is not JSON\.$/),
      undefined,
      expect.stringMatching(/^sheet\.json.*: this is not JSON\.$/),
      "settings.json: this is not a summary of a site.",
      undefined,
    ]);
    expect(pooled).toMatchObject({ sites: 2 });
    expect((await desk.poolView([cut])).pooled).toBeNull();
  });

  it("sites that were not asked the same are named with the key, their fingerprints differ in sight, and one site with two contents is refused", async () => {
    await bringStudy();
    await desk.ask({ milestone: "easy_climbing" });
    const { summary } = await desk.contribute("site-a");
    const { files, refusal, pooled } = await desk.poolView([summary, summaries[1]!]);
    expect(refusal).toContain('question.milestone: "easy_climbing" at "site-a", "full_climbing" at "site-b"');
    expect(pooled).toBeNull();
    expect(new Set(files.map(({ sites: [one] }) => one!.fingerprint)).size).toBe(2);
    await expect(desk.poolReport([summary, summaries[1]!])).rejects.toThrow(/was not asked/);
    const twice = await desk.poolView([summaries[0]!, { ...summary, name: "second.json" }]);
    expect(twice.refusal).toContain("in synthetic-site-a-summary.json and in second.json");
  });
});
