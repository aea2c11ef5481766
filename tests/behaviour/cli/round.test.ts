import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { command, folderWith } from "./run-command.js";

const cohort = new URL("../../../synthetic-data/three-sites/", import.meta.url);
const files = Object.fromEntries(
  readdirSync(cohort)
    .filter((name) => name.endsWith(".csv"))
    .map((name) => [name, readFileSync(new URL(name, cohort))]),
);
/** The study of the three clinics, each return on one day, ages held equal. */
const study = readFileSync(new URL("study.yaml", cohort), "utf8")
  .replace("  definitions: may_differ\n", "  definitions: may_differ\n  inexact_returns: on_one_day\n")
  .replace("    - grade\n", "    - grade\n    - age_at_injury\n");
const sites = ["site-a", "site-b", "site-c"];
const folder = folderWith({
  ...files,
  "study.yaml": study,
  "other.yaml": `${study}who: { sites: [site-a], grades: ["3"] }\n`,
  ...Object.fromEntries(sites.map((site) => [`${site}.yaml`, `${study}who: { sites: [${site}] }\n`])),
});
const read = (name: string) => JSON.parse(readFileSync(join(folder, name), "utf8"));

describe("a fit over rounds, as a coordinator and three sites run it", () => {
  const said: string[] = [];
  let rounds = 0;

  beforeAll(async () => {
    const begun = await command(folder, "round", "study.yaml");
    expect(begun.stderr).toBe("");
    for (; rounds < 10; rounds++) {
      const answers = [];
      for (const site of sites) {
        const answered = await command(folder, "round", `${site}.yaml`, `round-${rounds}.json`);
        expect(answered).toMatchObject({ code: 0, stderr: "" });
        said.push(answered.stdout);
        answers.push(`answer-${rounds}-${site}.json`);
      }
      const next = await command(folder, "round", `round-${rounds}.json`, ...answers);
      expect(next).toMatchObject({ code: 0, stderr: "" });
      said.push(next.stdout);
      if (next.stdout.includes("fit.json")) break;
    }
  });

  it("comes to a fit in few rounds, in a file and in words, marked and with its caution", () => {
    expect(rounds).toBeLessThan(6);
    const fit = read("fit.json");
    expect(fit).toMatchObject({ kind: "fit", converged: true });
    const words = said.at(-1) ?? "";
    expect(words).toContain(
      `SYNTHETIC DATA. The fit of 3 sites after ${rounds + 1} rounds: ${fit.people} people (how many injuries they had is left out`,
    );
    expect(words).toContain(`Student's t with ${fit.people - 1} degrees of freedom.`);
    expect(words).toContain(
      `What left each site: ${rounds + 1} answers, one a round, with ${fit.revealed.numbers} numbers`,
    );
    expect(words).toContain(
      `ring beside tape: ratio of the rates of return ${fit.parameters[0].ratio.toFixed(2)} (`,
    );
    expect(words).toContain("one finger. A licensed clinician");
  });

  it("says what an answer contains", () => {
    expect(said[0]).toContain("The file contains sums over people and these counts; no row.");
    expect(JSON.stringify(read("answer-0-site-a.json"))).not.toMatch(/P\d{3}|20\d\d-\d\d-\d\d/);
  });

  it.each([
    ["an answer from the round before", ["round-1.json", "answer-0-site-a.json"], "answers round 0"],
    ["an answer in the place of the point", ["answer-0-site-a.json"], "Name the point file first"],
    ["a point among the answers", ["round-0.json", "round-1.json"], "is a point, not the answer of a site"],
    [
      "missing sites",
      ["round-1.json", "answer-1-site-a.json"],
      "have not answered this point: site-b, site-c",
    ],
    ["no answers", ["round-0.json"], "no site has answered this point"],
    ["a site that asks something else", ["other.yaml", "round-0.json"], "who"],
    ["tables of several sites", ["study.yaml", "round-0.json"], "injuries of 3 sites"],
    ["two points at once", ["site-a.yaml", "round-0.json", "round-1.json"], "one point at a time"],
    ["a file that is no JSON", ["synthetic-sites.csv"], "this is no JSON"],
  ])("refuses %s", async (_, words, expected) => {
    const { code, stderr } = await command(folder, "round", ...words);
    expect(stderr).toContain(expected);
    expect([2, 3]).toContain(code);
  });

  it("finds a round that is taken up again as it was", async () => {
    const answers = sites.map((site) => `answer-0-${site}.json`);
    const { code, stdout } = await command(folder, "round", "round-0.json", ...answers);
    expect(code).toBe(0);
    expect(stdout).toContain("Already there, unchanged, as round-1.json");
  });

  it("goes on without a site that drops out, from the first answers of the others", async () => {
    const stopped = await command(folder, "round", "round-1.json", "answer-1-site-a.json");
    expect(stopped.stderr).toContain("go on from the first point file with the first answers of the others");
    const others = ["answer-0-site-a.json", "answer-0-site-b.json"];
    const { code, stdout } = await command(folder, "round", "round-0.json", ...others, "--into", "two.json");
    expect(code).toBe(0);
    expect(stdout).toContain("Send it to the same sites: site-a, site-b.");
    const answered = await command(folder, "round", "site-a.yaml", "two.json", "--into", "a-of-two.json");
    expect(answered).toMatchObject({ code: 0, stderr: "" });
    const gone = await command(folder, "round", "site-c.yaml", "two.json");
    expect(gone.stderr).toContain('"site-c" is not among the sites of this fit');
  });

  it("leaves an earlier file alone", async () => {
    const { code, stderr } = await command(folder, "round", "study.yaml", "--smallest-cell", "6");
    expect(code).toBe(4);
    expect(stderr).toContain("exists already");
    const replaced = await command(folder, "round", "study.yaml", "--smallest-cell", "6", "--replace");
    expect(replaced.code).toBe(0);
  });
});
