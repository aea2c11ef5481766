import { describe, expect, it } from "vitest";
import { presets, themes } from "../../../src/charts/index.js";
import { fontFaceCss } from "../../../src/report/font-files.js";
import { prefixIds, renderSvg, withStyle } from "../../../src/report/render-svg.js";
import { awkwardFigures } from "../charts/awkward-figures.js";
import { drawnTexts, overlaps } from "./svg-texts.js";

/** Figures of a pooled report, which are drawn for its page alone. */
const isPooled = (name: string) => /\bsites\b/.test(name);
const cases = Object.keys(awkwardFigures).flatMap((name) =>
  presets.filter((theme) => !isPooled(name) || theme === "screen").map((theme) => ({ name, theme })),
);

describe("every figure in every theme", () => {
  it.each(cases)(
    "$name, $theme: as wide as the theme, all text inside, no text over another",
    async ({ name, theme }) => {
      const svg = await renderSvg(awkwardFigures[name]!(themes[theme]));
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg)!.map(Number);
      expect(width).toBeCloseTo(themes[theme].width, 6);
      const texts = drawnTexts(svg);
      expect(texts.length).toBeGreaterThan(0);
      const outside = texts.filter(
        ({ left, right, top, bottom }) => left < 0 || right > width! || top < 0 || bottom > height!,
      );
      expect(outside).toEqual([]);
      expect(overlaps(texts)).toEqual([]);
    },
  );
});

describe("a drawing", () => {
  const figure = awkwardFigures["three treatments of one grade"]!(themes.slide);

  it("has the same bytes twice, also when two are drawn at a time", async () => {
    const first = await renderSvg(figure);
    const [again, other] = await Promise.all([
      renderSvg(figure),
      renderSvg(awkwardFigures["five grades"]!(themes.screen)),
    ]);
    expect(again).toBe(first);
    expect(other).toBe(await renderSvg(awkwardFigures["five grades"]!(themes.screen)));
  });

  it("of the slide has the proportions 16 : 9", async () => {
    for (const name of ["five grades", "three treatments of one grade", "pairs of three groups"]) {
      const svg = await renderSvg(awkwardFigures[name]!(themes.slide));
      expect(/viewBox="([^"]*)"/.exec(svg)?.[1], name).toBe("0 0 1280 720");
    }
  });

  it("carries its title and text alternative for a screen reader, escaped", async () => {
    const risky = { ...figure, title: "ring < tape & more", description: 'a "quoted" <b>' };
    const svg = await renderSvg(risky);
    expect(svg).toMatch(
      /^<svg [^>]*role="img" aria-labelledby="return-curve-compared-title return-curve-compared-description">/,
    );
    expect(svg).toContain('<title id="return-curve-compared-title">ring &lt; tape &amp; more</title>');
    expect(svg).toContain('<desc id="return-curve-compared-description">a "quoted" &lt;b&gt;</desc>');
  });

  it("tells the groups apart without colour: no two curves share a dash pattern", async () => {
    const svg = await renderSvg(awkwardFigures["five long names ending together"]!(themes.screen));
    const colours = ["#1f1ca8", "#bb5373", "#154a0c", "#416eea", "#66173f"];
    const dashes = colours.map((colour) => {
      const curve = new RegExp(
        `<path[^>]*stroke="${colour}" stroke-width="2.2"(?: stroke-dasharray="([^"]*)")?`,
      ).exec(svg);
      expect(curve, colour).not.toBeNull();
      return curve![1] ?? "unbroken";
    });
    expect(new Set(dashes).size).toBe(colours.length);
  });

  it("refuses a specification that the chart library warns of", async () => {
    const encoding = { x: { field: "a", type: "quantitative" }, shape: { field: "b", type: "nominal" } };
    const spec = { $schema: figure.spec.$schema, data: { values: [] }, mark: "bar", encoding };
    await expect(renderSvg({ ...figure, spec })).rejects.toThrow('Figure "return-curve-compared":');
  });

  it("asks for nothing: data from an address are refused", async () => {
    const spec = { $schema: figure.spec.$schema, data: { url: "file.csv" }, mark: "point", encoding: {} };
    await expect(renderSvg({ ...figure, spec })).rejects.toThrow();
  });

  it("takes a prefix for its ids, and for all that refers to them", () => {
    const svg =
      '<svg aria-labelledby="a b"><g id="a" clip-path="url(#c)"/><use href="#a" xlink:href="#c"/></svg>';
    expect(prefixIds(svg, "p-")).toBe(
      '<svg aria-labelledby="p-a p-b"><g id="p-a" clip-path="url(#p-c)"/><use href="#p-a" xlink:href="#p-c"/></svg>',
    );
  });

  it("can bring its font along, both faces in less than 60 kB", async () => {
    const css = fontFaceCss();
    expect(css.match(/@font-face/g)).toHaveLength(2);
    expect(css.length).toBeLessThan(60_000);
    expect(withStyle(await renderSvg(figure), css)).toContain(`</desc><style>${css}</style>`);
  });
});
