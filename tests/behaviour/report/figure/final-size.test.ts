import { describe, expect, it } from "vitest";
import { type Preset, presets, themes } from "../../../../src/charts/index.js";
import { ink } from "../../../../src/charts/theme.js";
import { renderSvg } from "../../../../src/report/render-svg.js";
import { awkwardFigures } from "../../charts/awkward-figures.js";

/** Smallest and largest text of a place, in points (common practice, no source). */
const sizes: Readonly<Partial<Record<Preset, readonly [number, number]>>> = {
  slide: [18, 60],
  poster: [24, 60],
  "one-column": [7, 9],
  "two-columns": [7, 9],
};

/** Sizes of the texts of a drawing in points; 96 pixels and 72 points to the inch. The mark behind a plot is none. */
const pointsIn = (svg: string): number[] =>
  [...svg.matchAll(/<text\b[^>]*>/g)]
    .filter(([tag]) => !tag.includes(ink.syntheticPale))
    .map(([tag]) => Number.parseFloat(/font-size="([\d.]+)px"/.exec(tag)![1]!) * 0.75);

const figures = [
  "five grades",
  "three treatments of one grade",
  "three landmarks",
  "after the return, two groups",
];

describe("at its final size", () => {
  it.each(presets.filter((place) => place in sizes))(
    "no text of a %s is too small or too large",
    async (place) => {
      for (const name of figures) {
        const points = pointsIn(await renderSvg(awkwardFigures[name]!(themes[place])));
        const [least, most] = sizes[place]!;
        expect(points.length, name).toBeGreaterThan(5);
        expect(Math.min(...points), name).toBeGreaterThanOrEqual(least);
        expect(Math.max(...points), name).toBeLessThanOrEqual(most);
      }
    },
  );

  it("a slide is 16 : 9, whatever is on it", async () => {
    for (const name of [...figures, "other ends of three treatments"]) {
      const svg = await renderSvg(awkwardFigures[name]!(themes.slide));
      expect(/viewBox="([^"]*)"/.exec(svg)?.[1], name).toBe("0 0 1280 720");
    }
  });

  it("invented data are marked in the plot itself, in each of several", async () => {
    const marks = async (name: string) =>
      (await renderSvg(awkwardFigures[name]!(themes.screen))).split(`fill="${ink.syntheticPale}"`).length - 1;
    expect(await marks("five grades")).toBe(5);
    expect(await marks("three treatments of one grade")).toBe(1);
    expect(await marks("real data")).toBe(0);
  });
});
