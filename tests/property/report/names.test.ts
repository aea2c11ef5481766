import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../../src/ingest/index.js";
import { figureAsPng, renderFigures, renderReport } from "../../../src/report/index.js";
import { csvText, dateOfDay, dayNumber, holdsHidden } from "../../../src/schema/index.js";
import { answer, readPlan } from "../../../src/study/index.js";

const special = [
  ...["__proto__", "constructor", "toString", "hasOwnProperty", "valueOf", "length"],
  ...[
    "all",
    "all injuries",
    "everybody",
    "other",
    "several",
    "tape",
    "grade 2",
    "site_id",
    "site no. 2",
    "7",
  ],
  ...[
    "a.b[0]",
    "a'b\"c",
    "<b>&amp;</b>",
    "#{x}",
    "{{1}}",
    "no. 1: x",
    "東京 病院",
    "Κλινική",
    "مركز",
    "👩‍👩‍👧",
    "Café",
    "Cafe\u0301",
  ],
  ...[
    "A",
    "\u0410",
    "a",
    "x_y",
    "x y",
    "x  y",
    `${"n".repeat(118)}1`,
    `${"n".repeat(118)}2`,
    "é".repeat(119),
  ],
];

/** What can be the name of a site: seen, not blank, and no word that says that there is none. */
const name = fc
  .oneof(
    { weight: 3, arbitrary: fc.constantFrom(...special) },
    { weight: 2, arbitrary: fc.string({ unit: "binary", minLength: 1, maxLength: 40 }) },
  )
  .map((text) => text.trim())
  .filter((text) => /[\p{L}\p{N}]/u.test(text) && !text.startsWith("'") && !holdsHidden(text))
  .filter((text) => !/^(?:na|nan|nd|nil|null|none|tbd|unknown|missing|blank|empty)$/i.test(text));

const day0 = dayNumber("2023-03-01");
const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");

async function reportOn(sites: readonly string[]) {
  const columns = [
    "injury_id",
    "person_id",
    "site_id",
    "injury_date",
    "hand",
    "finger",
    "pulleys",
    "pulley_extents",
  ];
  const rows = Array.from({ length: 7 * sites.length }, (_, at) => {
    const back = dateOfDay(day0 + 40 + ((at * 17) % 90));
    const identity = [`i${at}`, `p${at}`, sites[at % sites.length]!, dateOfDay(day0), "left", "ring"];
    return [...identity, "A3", "complete", "2", at % 5 === 0 ? null : back, dateOfDay(day0 + 200)];
  });
  const text = csvText([...columns, "grade", "full_climbing_date", "last_contact_date"], rows);
  const source = { table: "injuries", file: "injuries.csv", bytes: new TextEncoder().encode(text) } as const;
  const read = readCohort([source], { closedOn: null, thresholdMm: 2 });
  const compare = { by: "site_id", groups: sites, reference: sites[0], adjust_for: ["grade"] };
  const plan = readPlan(
    "study.yaml",
    JSON.stringify({ study: "names", title: "Names", data: { injuries: "injuries.csv" }, compare }),
  );
  const results = answer(read, plan);
  const figures = await renderFigures(results, { drawPng: figureAsPng });
  return {
    figures,
    results,
    files: await renderReport({ results, figures, version: "0", fontCss: "", sha256 }),
  };
}

const escaped = (text: string) =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");

async function expectWhole(sites: readonly string[]): Promise<void> {
  const { figures, files, results } = await reportOn(sites);
  expect(results.cohort.groups).toEqual(sites.map((label) => ({ label, n: 7 })));
  expect(new Set(files.map(({ path }) => path.toLowerCase())).size).toBe(files.length);
  for (const { path } of files) expect(path).toMatch(/^[a-z0-9./-]{1,80}$/);
  const page = String(files.find(({ path }) => path === "report.html")!.content);
  for (const site of sites) expect(page).toContain(`>${escaped(site)} (7)</th>`);
  const ids = [...page.matchAll(/<[^>]*\sid="([^"]*)"/g)].map(([, id]) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { svg, spec } of figures) {
    const texts = svg.replaceAll(/<\/?[\w:-]+(?:\s+[\w:-]+="[^"<]*")*\s*\/?>/g, "");
    expect(texts).not.toMatch(/<|&(?!(?:amp|lt|gt|quot|#39);)|\[object|undefined|function/);
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  }
}

describe("a report that compares sites", () => {
  it.each([[special.slice(0, 4)], [special.slice(-2)]])("is whole where they are called %j", expectWhole);

  it("is whole whatever they are called", async () => {
    const sites = fc.uniqueArray(name, { minLength: 2, maxLength: 4 });
    await fc.assert(fc.asyncProperty(sites, expectWhole), { seed: 20260401, numRuns: 4 });
  }, 240_000);
});
