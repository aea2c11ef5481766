import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/report/index.js";
import { withoutSmallCells } from "../../../src/study/index.js";
import { estimandWords } from "../../../src/words/estimands.js";
import { injury, on, resultsOf, treated } from "./hand-made.js";

const back = (id: string, day: number) => injury(id, { full_climbing_date: on(day) });
const injuries = [40, 50, 95, 120, 45, 60, 98, 130].map((day, i) => back(String(i + 1), day));
const treatments = injuries.map(({ injury_id }, i) => treated(injury_id!, i < 4 ? "ring" : "tape"));
const linesOf = (results: ReturnType<typeof resultsOf>) =>
  new Map(results.estimands.map((one) => [one.id, estimandWords(one, results).replace(/\s/g, " ")]));

describe("what each figure is a figure of", () => {
  const results = resultsOf(injuries, treatments);
  const lines = linesOf(results);

  it("says of whom, treated how, counted from when, other ends, loss and adjustment in one line", () => {
    expect(lines.get("landmark_difference:ring-tape:adjusted")).toBe(
      "Difference in the share back by a day, of the injuries in the stratum female (ring: 4, tape: 4); by the first treatment (the first of tape, ring and surgery), whatever came later; counted from the injury, each followed from the start of its treatment on; whoever gave up climbing, had a new rupture of the finger or died before being back counts as not back; those lost to follow-up are taken to be like those still followed; adjusted for sex.",
    );
    expect(lines.get("curves:all")).toMatch(
      /^Share back by a day, .* of all analysed injuries \(8\); counted from the injury, each followed from that day on; .*; adjusted for nothing\.$/,
    );
  });

  it("a ratio of rates counts those who gave up until then, whatever a share makes of them", () => {
    expect(lines.get("hazard_ratio:ring-tape:crude")).toContain(
      "whoever gave up climbing, had a new rupture of the finger or died counts up to that day",
    );
  });

  it("follows the question: the other share, the clock, the rule of the first treatment", () => {
    const other = linesOf(
      resultsOf(injuries, treatments, {
        question: {
          share_back: "if_no_competing_end",
          clock: "treatment_start",
          first_treatment: "of_compared",
          competing_ends: ["gave_up"],
        },
      }),
    );
    const line = other.get("landmark_difference:ring-tape:crude")!;
    expect(line).toContain("as if nobody gave up climbing");
    expect(line).toContain("counted from the start of the first treatment, each followed from that day on");
    expect(line).toContain("by the first treatment (the first of ring and tape)");
  });

  it("every mark in the page leads to a line, and every main number has one", () => {
    const page = sectionsOf({ results, figures: [], version: "" });
    const markup = page.map(({ body }) => body.markup).join("");
    const marks = [...markup.matchAll(/href="#(figure-of-\d+)"/g)].map(([, id]) => id);
    const places = new Set([...markup.matchAll(/<li id="(figure-of-\d+)"/g)].map(([, id]) => id));
    expect(places.size).toBe(results.estimands.length);
    expect(marks.filter((mark) => !places.has(mark!))).toEqual([]);
    expect(new Set(marks).size).toBe(places.size);
    const effects = page.find(({ id }) => id === "effects")!.body.markup;
    const rows = effects.match(/<tr><th scope="row"[\s\S]*?<\/tr>/g)!;
    expect(rows.filter((row) => !row.includes("figure-of-"))).toEqual([]);
    const answer = page.find(({ id }) => id === "answer")!.body.markup;
    for (const told of answer.match(/<p>[^<]*\d[^<]*(?:%|points?|days?)[\s\S]*?<\/p>/g)!)
      if (/back by|half were back/.test(told) && !told.includes("counted as a first treatment"))
        expect(told).toContain("figure-of-");
  });

  it("what is left out with small cells has no line", () => {
    const told = withoutSmallCells(results, { people: 5, injuries: 5, rows: {} });
    const ids = told.estimands.map(({ id }) => id);
    expect(ids).not.toContain("within:grade");
    expect(ids).not.toContain("after:all");
    const families = new Set(told.curves.map(({ family }) => family));
    expect(ids.includes("curves:compared")).toBe(families.has("compared"));
    expect(told.estimands.flatMap(({ groups }) => groups.map(({ n }) => n))).not.toContain(4);
  });
});
