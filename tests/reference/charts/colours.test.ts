import { describe, expect, it } from "vitest";
import {
  contrastWithWhite,
  greyOf,
  lab,
  linearLight,
  seenBy,
  sights,
  type Triple,
} from "../../../src/charts/colours.js";
import { ink } from "../../../src/charts/theme.js";

/** As the R package colorspace 2.1.0 has them: coords(as(sRGB(...), "LAB")) and contrast_ratio(..., "#ffffff", algorithm = "WCAG"). */
const measured: readonly (readonly [colour: string, lab: Triple, contrast: number])[] = [
  ["#1f1ca8", [23.49813, 49.28437, -71.93264], 11.733197],
  ["#bb5373", [49.48612, 45.12243, 2.56975], 4.567379],
  ["#ffee00", [92.75673, -13.3697, 91.29226], 1.201248],
  ["#00ff00", [87.7351, -86.18303, 83.1797], 1.37219],
  ["#000000", [0, 0, 0], 21],
  ["#ffffff", [100, -0.00245, 0.00465], 1],
  ["#7f7f7f", [53.19278, -0.00146, 0.00278], 4.004107],
];

/** As protan(), deutan() and tritan() of the R package colorspace 2.1.0 simulate them, severity 1. */
const simulated = {
  protanopia: { "#1f1ca8": "#003fac", "#bb5373": "#666974", "#ffee00": "#ffe500", "#00ff00": "#ffe500" },
  deuteranopia: { "#1f1ca8": "#0031a6", "#bb5373": "#817d71", "#ffee00": "#ffee2c", "#00ff00": "#efd63a" },
  tritanopia: { "#1f1ca8": "#004964", "#bb5373": "#c9495f", "#ffee00": "#ffdccb", "#00ff00": "#00f7d9" },
} as const;

/** Linear light as #rrggbb, IEC 61966-2-1:1999. */
const written = (light: Triple): string =>
  `#${light
    .map((value) => (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055))
    .map((value) =>
      Math.round(255 * value)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;

describe("the colours that a user gives are measured", () => {
  it.each(measured)("%s: L*a*b* and contrast with white", (colour, expected, contrast) => {
    const light = linearLight(colour);
    lab(light).forEach((value, i) => {
      expect(Math.abs(value - expected[i]!)).toBeLessThan(0.006);
    });
    expect(contrastWithWhite(light)).toBeCloseTo(contrast, 5);
  });

  it.each(Object.entries(simulated))("as they are seen with %s, Machado et al. 2009", (sight, colours) => {
    const kind = sights.find((one) => one === sight)!;
    for (const [colour, seen] of Object.entries(colours))
      expect(written(seenBy(kind, linearLight(colour))), colour).toBe(seen);
  });

  it("the grey of a colour is as light as it, to half a step of 256", () => {
    for (const colour of [...measured.map(([one]) => one), ink.synthetic]) {
      const [grey, own] = [greyOf(colour), colour].map((one) => lab(linearLight(one))[0]);
      expect(Math.abs(grey! - own!), colour).toBeLessThan(0.5);
    }
  });
});
