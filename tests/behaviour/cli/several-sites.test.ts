import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { csv } from "../run/site-files.js";
import { injury, on, type Row, treated } from "../study/hand-made.js";
import { command, folderWith } from "./run-command.js";

const sites = ["a", "b", "c"];
const siteStudy = `study: one-site
title: One site
data: { injuries: injuries.csv, treatments: treatments.csv }
compare: { smallest_group: 2 }
`;
const rowsOf = (site: string, place: number) => {
  const injuries: Row[] = Array.from({ length: 12 }, (_, i) =>
    injury(`${site}${i}`, {
      person_id: `P${i % 10}`,
      finger: i < 10 ? "ring" : "middle",
      sex: i % 10 < 5 ? "female" : "male",
      full_climbing_date: i % 6 === 5 ? "" : on(40 + 7 * i + 3 * place),
      last_contact_date: on(300 + i),
    }),
  );
  const treatments = injuries.map(({ injury_id }, i) => treated(injury_id!, i % 2 === 0 ? "ring" : "tape"));
  return { injuries, treatments };
};

/** Copies of three sites under one key, and a study of them. */
async function copies(): Promise<string> {
  const folder = folderWith(
    Object.fromEntries(
      sites.flatMap((site, place) => {
        const { injuries, treatments } = rowsOf(site, place);
        return [
          [`${site}/study.yaml`, siteStudy],
          [`${site}/injuries.csv`, csv(injuries)],
          [`${site}/treatments.csv`, csv(treatments)],
        ];
      }),
    ),
  );
  for (const site of sites) {
    const { code, stderr } = await command(
      folder,
      ...["share", `${site}/study.yaml`, "--into", `copies/${site}`, "--key", "common.key"],
    );
    expect(code, stderr).toBe(0);
  }
  return folder;
}

describe("copies of several sites", () => {
  let folder = "";
  const said: Record<string, Awaited<ReturnType<typeof command>>> = {};
  beforeAll(async () => {
    folder = await copies();

    writeFileSync(
      join(folder, "study.yaml"),
      `study: three-copies
title: Three copies
data:
  person_ids: per_site
  from_sites:
${sites.map((site) => `    - { site: ${site}, folder: copies/${site} }`).join("\n")}
compare: { smallest_group: 2 }
`,
    );
    said.check = await command(folder, "check", "study.yaml");
    said.report = await command(folder, "report", "study.yaml");
    // the same copies joined by hand: one below the other, with the site in a column
    const textOf = (site: string, table: string) =>
      readFileSync(join(folder, "copies", site, `${table}.csv`), "utf8")
        .trim()
        .split("\n");
    mkdirSync(join(folder, "joined"));
    for (const table of ["injuries", "treatments"]) {
      const column = textOf("a", table)[0]!.split(",").indexOf("site_id");
      const rows = sites.flatMap((site) =>
        textOf(site, table)
          .slice(1)
          .map((line) => {
            const cells = line.split(",");
            if (column >= 0) cells[column] = site;
            return cells.join(",");
          }),
      );
      writeFileSync(
        join(folder, "joined", `${table}.csv`),
        `${[textOf("a", table)[0], ...rows].join("\n")}\n`,
      );
    }
    writeFileSync(
      join(folder, "joined/study.yaml"),
      `study: joined
title: Joined by hand
data: { injuries: injuries.csv, treatments: treatments.csv, calendar: per_person, person_ids: per_site }
compare: { smallest_group: 2, adjust_for: [grade, site_id] }
`,
    );
    said.joined = await command(folder, "report", "joined/study.yaml");
  });

  it("can be checked, file by file and site by site", () => {
    expect(said.check!.code, said.check!.stderr).toBe(0);
    expect(said.check!.stdout).toContain(
      "b: copies/b/injuries.csv (injuries): 12 rows read = 12 used + 0 set aside",
    );
  });

  it("give to the last digit what the copies joined by hand give", () => {
    expect(said.report!.code, said.report!.stderr).toBe(0);
    expect(said.joined!.code, said.joined!.stderr).toBe(0);
    const resultsIn = (name: string) => JSON.parse(readFileSync(join(folder, name, "results.json"), "utf8"));
    const [several, joined] = [resultsIn("report"), resultsIn("joined/report")];
    for (const part of [
      "curves",
      "effects",
      "tests",
      "within",
      "follow_up",
      "lost",
      "loss_bounds",
      "missing",
    ])
      expect(several[part], part).toEqual(joined[part]);
    expect(several.accounting.analysis).toEqual(joined.accounting.analysis);
    // ten people at each site
    expect(several.accounting.analysis.persons).toBe(30);
    expect(several.harmonised.sites.map(({ site }: { site: string }) => site)).toEqual(sites);
  });

  it("name every file that went into the report, which can be recomputed", async () => {
    const { inputs } = JSON.parse(readFileSync(join(folder, "report/manifest.json"), "utf8"));
    expect(inputs.map(({ name }: { name: string }) => name)).toEqual(
      [
        ...sites.map((site) => [site, "study.yaml"]),
        ...sites.flatMap((site) => [
          [site, "injuries.csv"],
          [site, "treatments.csv"],
        ]),
      ].map(([site, name]) => `copies/${site}/${name}`),
    );
    const { code, stdout } = await command(folder, "recompute", "report");
    expect(code, stdout).toBe(0);
  });

  it.each([
    {
      verb: "share",
      words: ["share", "study.yaml", "--into", "out"],
      says: "Each site shares a copy of its own study",
    },
    {
      verb: "deposit",
      words: ["deposit", "study.yaml", "--into", "out"],
      says: "Each site deposits its own study",
    },
    {
      verb: "check",
      words: ["check", "study.yaml", "--queries", "q.csv"],
      says: "run check with the study file of each site",
    },
  ])("are not for $verb, which is for the site that holds the rows", async ({ words, says }) => {
    const { code, stderr } = await command(folder, ...words);
    expect(code).toBe(3);
    expect(stderr).toContain(says);
  });

  it("a site whose folder is not there is named", async () => {
    writeFileSync(
      join(folder, "missing.yaml"),
      "study: one\ntitle: One\ndata: { from_sites: [{ site: d, folder: copies/d }] }\n",
    );
    const { code, stderr } = await command(folder, "check", "missing.yaml");
    expect(code).not.toBe(0);
    expect(stderr).toContain("study file of the site d");
  });
});
