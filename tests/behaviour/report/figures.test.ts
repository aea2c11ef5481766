import { describe, expect, it } from "vitest";
import { type FigureFamily, figureKinds, figuresOf } from "../../../src/report/figures.js";
import { renderPage, sectionsOf } from "../../../src/report/index.js";
import { figureCaution } from "../../../src/words/index.js";
import { inputOf, resultsOf } from "./fixtures.js";

const kinds = (Object.keys(figureKinds) as FigureFamily[]).filter(
  (kind) => kind !== "standardised" && kind !== "definition",
);
/** A section with its figures, each of which ends with its own tag. */
const figuresIn = (markup: string) =>
  new Map(
    [...markup.matchAll(/<figure id="figure-([^"]+)">[\s\S]*?<\/figure>/g)].map(([all, id]) => [id, all]),
  );

/** All texts of a specification; the lines of one text stand in a list. */
function wordsIn(part: unknown): string {
  if (typeof part === "string") return part;
  return typeof part === "object" && part !== null ? Object.values(part).map(wordsIn).join(" ") : "";
}

describe("the registry of figures", () => {
  const sections = sectionsOf(inputOf());

  it.each(kinds)("%s stands in its section and in no other, the leading one in the first", (kind) => {
    const holding = sections.filter(({ body }) => figuresIn(body.markup).has(`invented-${kind}`));
    // of the figures of this input the groups compared lead: there are none adjusted
    const section = kind === "compared" ? "answer" : figureKinds[kind].section;
    expect(holding.map(({ id }) => id)).toEqual([section]);
  });

  it.each(figuresOf(resultsOf()).map((one) => [one.figure.id, one] as const))(
    "%s carries the caution in its own drawing where it shows returns, since it travels without its page",
    (_, { family, figure }) => {
      expect(wordsIn(figure.spec).includes(figureCaution)).toBe(figureKinds[family].showsReturns);
    },
  );

  it("has every figure of a report, each with an id of its own that names its files", () => {
    const results = resultsOf();
    const ids = figuresOf(results).map(({ figure }) => figure.id);
    expect(ids).toEqual([
      "return-curve-all",
      "return-curve-grade",
      "return-curve-compared",
      "other-ends-compared",
      "after-return-compared",
      "effects",
      "difference-over-time-1",
      "balance",
      "missing-values",
      "after-loss-1",
      "paired-distances",
    ]);
    expect(figuresOf({ ...results, distances: null }).map(({ family }) => family)).not.toContain("distances");
  });

  it("an adjusted pair of groups stands with its family, once", async () => {
    const input = inputOf();
    const compared = input.results.curves.find(({ family }) => family === "compared")!;
    const pair = {
      ...compared,
      family: "standardised" as const,
      held_equal: ["grade"],
      strata_used: ["grade 2"],
      curves: compared.curves.map((curve) => ({ ...curve, family: "standardised" as const })),
    };
    const results = { ...input.results, curves: [...input.results.curves, pair] };
    const [drawn] = figuresOf(results).filter(({ family }) => family === "standardised");
    expect(drawn!.figure.id).toMatch(/^return-curve-standardised-\d$/);
    const figure = {
      ...input.figures[0]!,
      id: "invented-pair",
      svg: "<svg></svg>",
      ...drawn!,
      title: "A pair",
    };
    const page = await renderPage({ ...input, results, figures: [...input.figures, figure] });
    expect(page.match(/<figure id="figure-invented-pair">/g)).toHaveLength(1);
  });

  it("a text alternative is read after the title, and does not say it again", async () => {
    for (const { figure } of figuresOf(resultsOf())) {
      expect(figure.description, figure.id).not.toContain(figure.title);
      expect(figure.description, figure.id).toContain("SYNTHETIC");
    }
  });
});
