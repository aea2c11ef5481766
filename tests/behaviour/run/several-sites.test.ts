import { describe, expect, it } from "vitest";
import { injury, on, type Row, treated } from "../study/hand-made.js";
import { csv, type Files, opened, resultsOfSites } from "./site-files.js";

const study = (data: string, more = "") => `study: two-sites\ntitle: Two sites\n${more}data:\n${data}`;
const sitesOf = (lines: readonly string[], more = "") =>
  study(
    `${more}  from_sites:\n${lines.map((line) => `    - ${line}\n`).join("")}`,
    "landmarks_weeks: [13]\ncompare: { smallest_group: 2 }\n",
  );

/** Injuries of a site: the day of the return of each, none for 0, first with a ring, then with tape. */
const rowsOf = (ring: readonly number[], tape: readonly number[], change: Row = {}) => {
  const days = [...ring, ...tape];
  return {
    injuries: days.map((day, i) =>
      injury(String(i), { site_id: "", full_climbing_date: day === 0 ? "" : on(day), ...change }),
    ),
    treatments: days.map((_, i) => treated(String(i), i < ring.length ? "ring" : "tape")),
  };
};
const filesIn = (folder: string, { injuries, treatments }: ReturnType<typeof rowsOf>): Files => ({
  [`${folder}/injuries.csv`]: csv(injuries),
  [`${folder}/treatments.csv`]: csv(treatments),
});
const tablesIn = (folder: string) => `injuries: ${folder}/injuries.csv, treatments: ${folder}/treatments.csv`;

const north = rowsOf([60, 70], [80, 100]);
const south = rowsOf([50, 80, 120], [60, 110, 130]);
const files = { ...filesIn("n", north), ...filesIn("s", south) };
const both = [`{ site: north, ${tablesIn("n")} }`, `{ site: south, ${tablesIn("s")} }`];

describe("a study of several sites", () => {
  it("compares like with like within each site: the difference by hand", async () => {
    const { effects } = await resultsOfSites({ ...files, "study.yaml": sitesOf(both) });
    const found = effects.find(({ id }) => id === "landmark_difference:ring-tape:day-91:adjusted")!;
    expect(found.adjusted_for).toEqual(["grade", "site_id"]);
    // by hand: north 2/2 - 1/2, south 2/3 - 1/3; at the mix of 4 and 6 injuries
    expect(found.estimate.value).toBeCloseTo(0.4 * (1 / 2) + 0.6 * (1 / 3), 12);
  });

  it("gives each site's own answer, and the joined one without each", async () => {
    const { sites } = await resultsOfSites({ ...files, "study.yaml": sitesOf(both) });
    expect(sites!.answers.map(({ site, n, persons, events }) => [site, n, persons, events])).toEqual([
      ["north", 4, 4, 4],
      ["south", 6, 6, 6],
    ]);
    expect(sites!.answers.map(({ landmarks }) => landmarks[0]!.returned.value)).toEqual([3 / 4, 1 / 2]);
    // by hand, all back: 60, 70, 80, 100 days
    expect(sites!.answers[0]!.restricted_mean.days.value).toBeCloseTo(310 / 4, 12);
    const share = (effects: (typeof sites & object)["without"][number]["effects"]) =>
      effects.find(({ measure }) => measure === "landmark_difference")!.estimate.value;
    expect(sites!.without.map(({ site, n }) => [site, n])).toEqual([
      ["north", 6],
      ["south", 4],
    ]);
    expect(share(sites!.without[0]!.effects)).toBeCloseTo(1 / 3, 12);
    expect(share(sites!.without[1]!.effects)).toBeCloseTo(1 / 2, 12);
  });

  it("gives to the last digit what one table of all rows gives", async () => {
    const named = (site: string, { injuries, treatments }: ReturnType<typeof rowsOf>) => ({
      injuries: injuries.map((row) => ({ ...row, site_id: site, injury_id: `${site}-${row.injury_id}` })),
      treatments: treatments.map((row) => ({ ...row, injury_id: `${site}-${row.injury_id}` })),
    });
    const all = [named("north", north), named("south", south)];
    const joined = await resultsOfSites({
      "all/injuries.csv": csv(all.flatMap(({ injuries }) => injuries)),
      "all/treatments.csv": csv(all.flatMap(({ treatments }) => treatments)),
      "study.yaml": study(
        "  injuries: all/injuries.csv\n  treatments: all/treatments.csv\n  person_ids: per_site\n",
        "landmarks_weeks: [13]\ncompare: { smallest_group: 2, adjust_for: [grade, site_id] }\n",
      ),
    });
    const separate = await resultsOfSites({
      ...files,
      "study.yaml": sitesOf(both, "  person_ids: per_site\n"),
    });
    for (const part of [
      "curves",
      "effects",
      "tests",
      "within",
      "follow_up",
      "known_returns",
      "lost",
      "loss_bounds",
      "cohort",
      "missing",
      "differences_over_time",
      "after_return",
      "target_trial",
    ] as const)
      expect(separate[part], part).toEqual(joined[part]);
    expect(separate.accounting.analysis).toEqual(joined.accounting.analysis);
  });

  it("accounts for the rows file by file and site by site", async () => {
    const bad = { ...north, injuries: [...north.injuries, injury("x", { site_id: "", grade: "9" })] };
    const { accounting, queries } = await resultsOfSites({
      ...files,
      ...filesIn("n", bad),
      "study.yaml": sitesOf(both),
    });
    expect(
      accounting.tables.map(({ site, file, read, used, set_aside }) => [site, file, read, used, set_aside]),
    ).toEqual([
      ["north", "n/injuries.csv", 5, 4, 1],
      ["north", "n/treatments.csv", 4, 4, 0],
      ["south", "s/injuries.csv", 6, 6, 0],
      ["south", "s/treatments.csv", 6, 6, 0],
    ]);
    expect(queries.some(({ file, rows }) => file === "n/injuries.csv" && rows.includes(6))).toBe(true);
  });

  it("the same person id is another person at each site, unless the study states that ids are shared", async () => {
    const later = rowsOf([50, 80, 120], [60, 110, 130], { finger: "middle" });
    const persons = async (more: string) =>
      (await resultsOfSites({ ...files, ...filesIn("s", later), "study.yaml": sitesOf(both, more) }))
        .accounting.analysis.persons;
    expect(await persons("  person_ids: per_site\n")).toBe(10);
    expect(await persons("  person_ids: shared\n")).toBe(6);
  });

  it("counts loss up to the day on which the data of each site were closed", async () => {
    const open = rowsOf([0], [0], { last_contact_date: on(30) });
    const closed = (day: number) => `{ site: s${day}, ${tablesIn("o")}, closed_on: ${on(day)} }`;
    const { lost, harmonised } = await resultsOfSites({
      ...filesIn("o", open),
      "study.yaml": sitesOf([closed(30), closed(400)]),
    });
    // seen up to the close at the one site, lost 370 days before it at the other
    expect(lost.lost).toBe(2);
    expect(harmonised!.losses.sites.map(({ site, lost: n }) => [site, n])).toEqual([
      ["s30", 0],
      ["s400", 2],
    ]);
  });

  it("takes a site's own study file, with its mapping of dates and its closing day", async () => {
    const own = rowsOf([60, 70], [80, 100], { injury_date: "04/03/2024" });
    const { plan, inputs } = await opened({
      ...files,
      ...filesIn("n", own),
      "n/own.yaml": study(
        `  injuries: injuries.csv\n  treatments: treatments.csv\n  date_order: day-first\n  closed_on: 2025-01-01\n`,
      ),
      "study.yaml": sitesOf(["{ site: north, study: n/own.yaml }", both[1]!]),
    });
    expect(plan.data.from_sites![0]).toMatchObject({
      site: "north",
      injuries: "n/injuries.csv",
      date_order: "day-first",
      closed_on: "2025-01-01",
    });
    expect(inputs.map(({ name }) => name)).toEqual([
      "n/own.yaml",
      "n/injuries.csv",
      "n/treatments.csv",
      "s/injuries.csv",
      "s/treatments.csv",
    ]);
  });

  it("tells what each site states, and what the study file says that it states", async () => {
    const { harmonised } = await resultsOfSites({
      ...files,
      "n/sites.csv": csv([{ site_id: "a", definition_full: "all grips" }]),
      "study.yaml": sitesOf([
        `{ site: north, ${tablesIn("n")}, sites: n/sites.csv }`,
        `{ site: south, ${tablesIn("s")}, states: { definition_full: "All grips." } }`,
      ]),
    });
    expect(harmonised!.stated.find(({ decides }) => decides)).toMatchObject({ verdict: "same", ask: [] });
  });

  it("sites that mean different things are not joined, and each is still answered", async () => {
    const states = (text: string) => `states: { definition_full: "${text}" }`;
    const { sites, effects, definitions } = await resultsOfSites({
      ...files,
      "study.yaml": sitesOf([
        `{ site: north, ${tablesIn("n")}, ${states("all grips")} }`,
        `{ site: south, ${tablesIn("s")}, ${states("the old project")} }`,
      ]),
    });
    expect(definitions!.pooled).toBe(false);
    expect(effects).toEqual([]);
    expect(sites!.without).toEqual([]);
    expect(sites!.frailty).toEqual([]);
    expect(sites!.answers.map(({ n }) => n)).toEqual([4, 6]);
  });

  it("tells nothing of few people where small cells are left out", async () => {
    const many = (shift: number) =>
      rowsOf(
        Array.from({ length: 12 }, (_, i) => 50 + 3 * i + shift),
        Array.from({ length: 12 }, (_, i) => 55 + 4 * i + shift),
      );
    const { sites, harmonised } = await resultsOfSites(
      { ...filesIn("n", many(0)), ...filesIn("s", many(2)), "study.yaml": sitesOf(both) },
      "leave-out",
    );
    expect(sites).toBeNull();
    expect(harmonised!.sites.map(({ analysed }) => analysed)).toEqual([25, 25]);
    const counts = JSON.stringify(harmonised).match(/"n":(\d+)/g) ?? [];
    expect(counts.every((one) => Number(one.slice(4)) % 5 === 0)).toBe(true);
  });
});

describe("a study of several sites refuses", () => {
  it.each([
    { why: "a site without rows", lines: ["{ site: north }"], says: "the site north names no rows" },
    {
      why: "a site that names its rows twice",
      lines: [`{ site: north, folder: n, ${tablesIn("n")} }`],
      says: "the site north names its rows more than once",
    },
    {
      why: "a table beside a folder",
      lines: ["{ site: north, folder: n, visits: n/visits.csv }"],
      says: "names its rows by a folder, which names its tables itself",
    },
    { why: "two sites of one name", lines: [both[0]!, both[0]!], says: "each site once" },
    { why: "a name that is none", lines: ['{ site: "the clinic", folder: n }'], says: "a coded name" },
  ])("$why", async ({ lines, says }) => {
    await expect(opened({ ...files, "study.yaml": sitesOf(lines) })).rejects.toThrow(says);
  });

  it("a table of no site beside the sites", async () => {
    const text = sitesOf(both, "  visits: visits.csv\n");
    await expect(opened({ ...files, "study.yaml": text })).rejects.toThrow(
      "it does not say whose rows these are",
    );
  });

  it("files that cannot be read, with the name of the site and of the file", async () => {
    const broken = { ...files, "s/injuries.csv": "one,two\n1,2\n", "study.yaml": sitesOf(both) };
    await expect(opened(broken)).rejects.toThrow(/^Site south: s\/injuries\.csv/);
  });

  it("invented rows beside those of patients", async () => {
    const own = (synthetic: boolean) =>
      study("  injuries: injuries.csv\n  treatments: treatments.csv\n", `synthetic: ${synthetic}\n`);
    const mixed = { ...files, "n/study.yaml": own(true), "s/study.yaml": own(false) };
    await expect(
      opened({
        ...mixed,
        "study.yaml": sitesOf(["{ site: north, folder: n }", "{ site: south, folder: s }"]),
      }),
    ).rejects.toThrow('"synthetic: true" stands in the study files of north and not in those of south');
    const invented = { ...mixed, "s/study.yaml": own(true) };
    const { plan } = await opened({
      ...invented,
      "study.yaml": sitesOf(["{ site: north, folder: n }", "{ site: south, folder: s }"]),
    });
    expect(plan.synthetic).toBe(true);
  });

  it("ids that a site keeps to itself where the study says that they are shared", async () => {
    const own = study("  injuries: injuries.csv\n  treatments: treatments.csv\n  person_ids: per_site\n");
    const text = sitesOf(["{ site: north, folder: n }", both[1]!], "  person_ids: shared\n");
    await expect(opened({ ...files, "n/study.yaml": own, "study.yaml": text })).rejects.toThrow(
      "but north state per_site",
    );
  });

  it("one injury recorded at two sites, which would count twice", async () => {
    const text = sitesOf(both, "  person_ids: shared\n");
    await expect(opened({ ...files, "study.yaml": text })).rejects.toThrow(
      /^4 injuries are recorded at two sites.*s\/injuries\.csv, row 2 \(site south\) is the injury of n\/injuries\.csv, row 2 \(site north\)/s,
    );
  });

  it("a statement that the site's own table contradicts", async () => {
    const text = sitesOf([
      `{ site: north, ${tablesIn("n")}, sites: n/sites.csv, states: { definition_full: the old project } }`,
      both[1]!,
    ]);
    const sites = csv([{ site_id: "a", definition_full: "all grips" }]);
    await expect(opened({ ...files, "n/sites.csv": sites, "study.yaml": text })).rejects.toThrow(
      'site north, "definition_full": the study file says that the site states "the old project", but its own table says "all grips"',
    );
  });

  it("a study of several sites as one of the sites", async () => {
    const text = sitesOf(["{ site: north, study: n/own.yaml }"]);
    await expect(opened({ ...files, "n/own.yaml": sitesOf(both), "study.yaml": text })).rejects.toThrow(
      "the study of the site north is itself of several sites",
    );
  });
});
