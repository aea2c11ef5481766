import { describe, expect, it } from "vitest";
import { plainWords } from "../../../src/report/plain/plain-words.js";
import { withoutSmallCells } from "../../../src/study/small-cells/index.js";
import { injury, on, type Row, resultsOfTables, treated } from "./hand-made.js";

/** Ten injuries at each of three sites, alternately taped and ringed; so many of them back by week 10, the others in week 20. */
const backEarly: Readonly<Record<string, number>> = { a: 8, b: 2, c: 6 };
const cohort = Object.entries(backEarly).flatMap(([site, early]) =>
  Array.from({ length: 10 }, (_, place) =>
    injury(`${site}${place}`, { site_id: site, full_climbing_date: on(place < early ? 70 : 140) }),
  ),
);
const treatments = cohort.map(({ injury_id = "" }, place) =>
  treated(injury_id, place % 2 === 0 ? "tape" : "ring"),
);

const resultsWith = (
  words: Readonly<Record<string, string>>,
  { definitions, rows = cohort }: { definitions?: "may_differ"; rows?: readonly Row[] } = {},
) =>
  resultsOfTables(
    {
      injuries: rows,
      treatments,
      sites: Object.entries(words).map(([site_id, definition_full]) => ({ site_id, definition_full })),
    },
    definitions === undefined ? {} : { question: { definitions } },
  );

const sharesBy13 = ({ curves }: ReturnType<typeof resultsWith>, wanted: string) =>
  curves
    .filter(({ family }) => family === wanted)
    .flatMap((family) => family.curves)
    .map(({ label, landmarks }) => [label, landmarks.find(({ week }) => week === 13)?.returned.value]);

describe("sites that define the return differently", () => {
  const differ = { a: "All grips!", b: "first time on the wall", c: "all  grips" };

  it("letter case, spaces and punctuation make no difference", () => {
    expect(
      resultsWith({ a: "All grips, no limits.", b: "all grips - no limits", c: "ALL GRIPS NO LIMITS" })
        .definitions,
    ).toBeNull();
  });

  it("signs do: over and under a level are not the same", () => {
    expect(
      resultsWith({ a: "> 7a", b: "< 7a", c: "> 7a" }).definitions?.rows.map(({ sites }) => sites),
    ).toEqual([["a", "c"], ["b"]]);
  });

  it("each definition has its share: 14 of 20 and 2 of 10 by hand; no pooled curve, test, difference or table", () => {
    const results = resultsWith(differ);
    expect(sharesBy13(results, "definition")).toEqual([
      ["definition 1 (a, c)", expect.closeTo(0.7, 12)],
      ["definition 2 (b)", expect.closeTo(0.2, 12)],
    ]);
    expect(results.curves.map(({ family }) => family)).toEqual(["definition"]);
    expect(results.after_return?.groups.map(({ family, returned }) => [family, returned])).toEqual([
      ["definition", 20],
      ["definition", 10],
    ]);
    expect([results.effects, results.tests, results.within]).toEqual([[], [], null]);
    expect(results.definitions).toMatchObject({ pooled: false, rows: [{ n: 20 }, { n: 10 }] });
    expect(results.warnings).toContainEqual({
      code: "definitions-differ",
      facts: {
        definitions: "a, c: \u201cAll grips!\u201d; b: \u201cfirst time on the wall\u201d",
        pooled: "no",
      },
      could_move: null,
    });
  });

  it("groups are compared within a definition alone: taped 7 of 10 and ringed 7 of 10 at a and c, 1 of 5 each at b", () => {
    const { rows } = resultsWith(differ).definitions!;
    expect(
      rows.map(({ cells }) => cells.map(({ label, n, returned }) => [label, n, returned.value])),
    ).toEqual([
      [
        ["ring", 10, expect.closeTo(0.7, 12)],
        ["tape", 10, expect.closeTo(0.7, 12)],
      ],
      [
        ["ring", 5, expect.closeTo(0.2, 12)],
        ["tape", 5, expect.closeTo(0.2, 12)],
      ],
    ]);
    const main = rows[0]!.effects.find(
      ({ measure, main: isMain, adjusted_for }) =>
        measure === "landmark_difference" && isMain && adjusted_for.length === 0,
    );
    expect(main).toMatchObject({
      n: { compared: 10, reference: 10 },
      estimate: { value: expect.closeTo(0, 12) },
    });
  });

  it("the plain words name sites and definitions, answer each by itself and say what to write", () => {
    const words = plainWords(resultsWith(differ)).flat();
    const text = words.join(" ");
    expect(text).toContain(
      "back means what each site calls full climbing (\u201cAll grips!\u201d at the sites \u201ca\u201d and \u201cc\u201d; " +
        "\u201cfirst time on the wall\u201d at the site \u201cb\u201d)",
    );
    expect(text).toContain(
      "Of the 20 injuries at the sites \u201ca\u201d and \u201cc\u201d, an estimated 70\u00a0%",
    );
    expect(text).toContain("Of the 10 injuries at the site \u201cb\u201d, an estimated 20\u00a0%");
    expect(text).toContain("write definitions: may_differ under question");
    expect(words.filter((sentence) => /Of (all|the) 30|injuries first treated/.test(sentence))).toEqual([]);
  });

  it("where the study file says that they may differ they are pooled: 16 of 30, the definitions beside, the warning stays", () => {
    const results = resultsWith(differ, { definitions: "may_differ" });
    expect(sharesBy13(results, "all")).toEqual([["all injuries", expect.closeTo(16 / 30, 12)]]);
    expect(sharesBy13(results, "definition")).toHaveLength(2);
    expect(results.effects.length).toBeGreaterThan(0);
    expect(results.warnings.find(({ code }) => code === "definitions-differ")?.facts.pooled).toBe("yes");
    expect(plainWords(results).flat().join(" ")).toContain(
      "the study file says that they may be counted together",
    );
  });

  it("a site without a definition is not stated, and is not taken for one that has it", () => {
    const { rows } = resultsWith({ a: "all grips", b: "", c: "all grips" }).definitions!;
    expect(rows.map(({ definition, sites }) => [definition, sites])).toEqual([
      ["all grips", ["a", "c"]],
      [null, ["b"]],
    ]);
  });

  it("sites of which none states anything are counted together, and so are injuries at one site", () => {
    expect(resultsWith({ a: "", b: "", c: "" }).definitions).toBeNull();
    const one = cohort.filter(({ site_id }) => site_id === "a");
    expect(resultsWith(differ, { rows: one }).definitions).toBeNull();
  });

  it("a return that did not last is told where it was seen, in the words of its sites", () => {
    const again = cohort.map((row, place) => (place === 0 ? { ...row, new_rupture_date: on(150) } : row));
    expect(
      plainWords(resultsWith(differ, { rows: again }))
        .flat()
        .join(" "),
    ).toContain(
      "of 20 injuries at the sites \u201ca\u201d and \u201cc\u201d that were back as their sites define it, 1 ruptured again",
    );
  });

  it("only sites with analysed injuries count", () => {
    const without = cohort.filter(({ site_id }) => site_id !== "b");
    expect(resultsWith(differ, { rows: without }).definitions).toBeNull();
  });

  it("only the milestone that is asked about counts", () => {
    const results = resultsOfTables({
      injuries: cohort,
      treatments,
      sites: [
        { site_id: "a", definition_easy: "any wall", definition_full: "all grips" },
        { site_id: "b", definition_easy: "top rope", definition_full: "all grips" },
        { site_id: "c", definition_full: "all grips" },
      ],
    });
    expect(results.definitions).toBeNull();
  });

  it("where small cells are left out no group within a definition is told", () => {
    const told = withoutSmallCells(resultsWith(differ), { people: 5, injuries: 5, rows: {} });
    expect(told.definitions?.rows.map(({ n, cells, effects }) => [n, cells, effects])).toEqual([
      [20, [], []],
      [10, [], []],
    ]);
    expect(told.small_cells.left_out).toContain("groups within each definition of the return");
  });
});
