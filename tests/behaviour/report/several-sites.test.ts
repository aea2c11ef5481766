import { beforeAll, describe, expect, it } from "vitest";
import type { Safe } from "../../../src/report/escape.js";
import { plainWords } from "../../../src/report/plain/plain-words.js";
import { bySiteSection } from "../../../src/report/sections/by-site.js";
import { methodsSection } from "../../../src/report/sections/methods.js";
import { sitesSection } from "../../../src/report/sections/sites.js";
import { tableFiles } from "../../../src/report/tables.js";
import type { Results } from "../../../src/study/index.js";
import { csv, resultsOfSites } from "../run/site-files.js";
import { injury, on, type Row, treated } from "../study/hand-made.js";

const site = (
  folder: string,
  { every, change = () => ({}) }: { every: number; change?: (i: number) => Row },
) => {
  const injuries = Array.from({ length: 12 }, (_, i) =>
    injury(String(i), { site_id: "", full_climbing_date: on(60 + 3 * i), ...change(i) }),
  );
  return {
    [`${folder}/injuries.csv`]: csv(injuries),
    [`${folder}/treatments.csv`]: csv(
      injuries.map((_, i) => treated(String(i), i % 2 === 0 ? "ring" : "tape")),
    ),
    [`${folder}/visits.csv`]: csv(
      injuries.flatMap((_, i) =>
        [1, 2, 3].map((visit) => ({ injury_id: String(i), date: on(every * visit) })),
      ),
    ),
  };
};
const named = (name: string, more = "") =>
  `    - { site: ${name}, injuries: ${name}/injuries.csv, treatments: ${name}/treatments.csv, visits: ${name}/visits.csv${more} }`;
const lost = (i: number): Row => (i < 4 ? { full_climbing_date: "", last_contact_date: on(90) } : {});

let results: Results;
const context = () => ({ results, figures: [], version: "0" });
const textOf = (body: Safe) => body.markup.replaceAll(/<[^>]+>/g, " ").replaceAll(/\s+/g, " ");
beforeAll(async () => {
  results = await resultsOfSites({
    ...site("north", { every: 28 }),
    ...site("south", { every: 84, change: lost }),
    ...site("east", { every: 28, change: () => ({ sex: "" }) }),
    "study.yaml": `study: three
title: Three
data:
  closed_on: 2025-06-30
  from_sites:
${[named("north", ", states: { definition_full: all grips }"), named("south"), named("east")].join("\n")}
question: { definitions: may_differ }
compare: { smallest_group: 2, adjust_for: [grade, sex] }
`,
  });
});

describe("the report of several sites", () => {
  it("tells unlike schedules and unlike losses in the plain words, before any difference", () => {
    const told = plainWords(results).map((sentences) => sentences.join(" "));
    const ofSites = told.findIndex((text) => text.includes("The injuries are of 3 sites."));
    const ofDifference = told.findIndex((text) => text.includes("Adjusted for"));
    expect(told[ofSites]).toContain(
      "the median time from one contact to the next goes from 28 days at north to 84 days at south",
    );
    expect(told[ofSites]).toContain("from 0\u00a0% to 33\u00a0% of the injuries of a site");
    expect(told[ofSites]).toContain("next to nothing about how much further sites would differ");
    expect(ofSites).toBeGreaterThanOrEqual(0);
    expect(ofDifference === -1 || ofSites < ofDifference).toBe(true);
  });

  it("says whom to ask for a definition, and what cannot be pooled and is left out", () => {
    const text = textOf(sitesSection(context())!.body);
    expect(text).toContain("Ask south and east: they do not state one definition.");
    expect(text).toContain(
      "Sex is never recorded at east: it is held equal in adjusted comparisons, which leave the injuries of this site out.",
    );
    expect(text).toContain("Sex: never recorded at east");
  });

  it("sets each site beside all of them, and all of them without each", () => {
    const text = textOf(bySiteSection(context())!.body);
    for (const words of [
      "Each site by itself",
      "All sites",
      "without north",
      "without south",
      "hazard ratio",
    ])
      expect(text).toContain(words);
    expect(text).toContain("not advice for one finger");
  });

  it("says what was run, with its source", () => {
    const text = textOf(methodsSection(context()).body);
    expect(text).toContain("The rows of 3 sites were joined and analysed in one stage.");
    expect(text).toContain("Nielsen, Gill, Andersen");
  });

  it("gives every number of the sites as a table", () => {
    const names = tableFiles(results).map(({ path }) => path);
    expect(names).toEqual(
      expect.arrayContaining(
        [
          "schedules",
          "lost",
          "stated",
          "fields",
          "shares",
          "mean-times",
          "effects",
          "effects-without",
          "frailty",
        ].map((name) => `tables/sites-${name}.csv`),
      ),
    );
  });
});
