import { describe, expect, it } from "vitest";
import {
  contrastWithWhite,
  lab,
  linearLight,
  luminance,
  seenBy,
  sights,
} from "../../../src/charts/colours.js";
import { groupStyles } from "../../../src/charts/index.js";
import { shade } from "../../../src/charts/missing-values.js";
import { ink } from "../../../src/charts/theme.js";
import { colourDifference } from "./colour-difference.js";

const colours = groupStyles.map(({ colour }) => colour);
const pairs = colours.flatMap((a, index) => colours.slice(index + 1).map((b) => [a, b] as const));

describe("the measuring of colours itself", () => {
  it("CIEDE2000 of the first pair of table 1, Sharma, Wu & Dalal 2005 (from memory): 2.0425", () => {
    expect(colourDifference([50, 2.6772, -79.7751], [50, 0, -82.7485])).toBeCloseTo(2.0425, 4);
  });
  it("white is L* 100 and black 21 : 1 against it, W3C 2018", () => {
    expect(lab(linearLight("#ffffff"))[0]).toBeCloseTo(100, 3);
    expect(contrastWithWhite(linearLight("#000000"))).toBeCloseTo(21, 9);
  });
});

describe("the colours of the groups", () => {
  it.each(sights)("differ by 16 or more (CIEDE2000) with %s, Machado et al. 2009", (kind) => {
    const seen = (colour: string) => lab(seenBy(kind, linearLight(colour)));
    const closest = Math.min(...pairs.map(([a, b]) => colourDifference(seen(a), seen(b))));
    expect(closest).toBeGreaterThanOrEqual(16);
  });

  it.each([...colours, ink.text, ink.muted, ink.synthetic])(
    "%s reads as text on white: 4.5 : 1, W3C 2018",
    (colour) => {
      expect(contrastWithWhite(linearLight(colour))).toBeGreaterThanOrEqual(4.5);
    },
  );

  it("neighbours differ in grey print by 20 or more in L* (common practice, no source)", () => {
    const lightness = colours.map((colour) => lab(linearLight(colour))[0]);
    const steps = lightness.slice(1).map((value, index) => Math.abs(value - lightness[index]!));
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(20);
  });

  it("never stand alone: dashes and shapes are all different too", () => {
    expect(new Set(groupStyles.map(({ dash }) => dash.join())).size).toBe(groupStyles.length);
    expect(new Set(groupStyles.map(({ shape }) => shape)).size).toBe(groupStyles.length);
  });
});

describe("the shades of missing values", () => {
  it.each([0, 0.25, 0.5, 0.75, 1])("words read on the shade of %d: 4.5 : 1, W3C 2018", (share) => {
    const words = luminance(linearLight(ink.text)) + 0.05;
    expect((luminance(linearLight(shade(share))) + 0.05) / words).toBeGreaterThanOrEqual(4.5);
  });
});
