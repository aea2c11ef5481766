import { describe, expect, it } from "vitest";
import * as ours from "../../../src/charts/colours.js";
import { ink } from "../../../src/charts/theme.js";
import { contrastWithWhite, lab, linearLight, sight } from "./colours.js";

const colours = ["#1f1ca8", "#bb5373", "#ffee00", "#00ff00", "#000000", "#ffffff", "#7f7f7f"];

describe("the colours that a user gives are measured", () => {
  it.each(colours)("%s: L*a*b* and contrast as IEC 61966-2-1, CIE 15 and W3C 2018 have them", (colour) => {
    const light = ours.linearLight(colour);
    ours.lab(light).forEach((value, i) => {
      expect(value).toBeCloseTo(lab(linearLight(colour))[i]!, 6);
    });
    expect(ours.contrastWithWhite(light)).toBeCloseTo(contrastWithWhite(linearLight(colour)), 9);
  });

  it.each(ours.sights)("light as it is seen with %s, Machado et al. 2009", (kind) => {
    const light = ours.linearLight("#bb5373");
    ours.seenBy(kind, light).forEach((value, i) => {
      expect(value).toBeCloseTo(sight[kind]!(linearLight("#bb5373"))[i]!, 9);
    });
  });

  it("the grey of a colour is as light as it, to half a step of 256", () => {
    for (const colour of [...colours, ink.synthetic]) {
      const [grey, own] = [ours.greyOf(colour), colour].map((one) => lab(linearLight(one))[0]);
      expect(Math.abs(grey! - own!), colour).toBeLessThan(0.5);
    }
  });
});
