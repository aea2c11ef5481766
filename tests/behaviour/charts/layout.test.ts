import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lines, roughWidth } from "../../../src/charts/rough-width.js";
import { spread } from "../../../src/charts/spread.js";
import { linearAxis, ratioAxis } from "../../../src/charts/value-axis.js";
import { textWidth } from "../../../src/report/text-width.js";
import { regularWidths } from "../../../src/report/text-width-table.js";

const fixed = { seed: 20_240_611 };

describe("rough widths", () => {
  const every = regularWidths.runs.flatMap((run) => {
    const [from, ...advances] = run.split(" ").map(Number);
    return advances.map((_, index) => String.fromCodePoint(from! + index));
  });
  it.each(["normal", "bold"] as const)(
    "are not below the true width of any character but the sign for per mille, %s",
    (weight) => {
      const style = { fontSize: 100, weight: weight === "bold" ? "bold" : "regular" } as const;
      expect(every.filter((one) => roughWidth(one, 100, weight) < textWidth(one, style) - 4)).toEqual(["‰"]);
    },
  );

  it("keep every line within the width, and lose no letter", () => {
    const words = fc.array(fc.stringMatching(/^[a-zA-Z0-9]{1,45}$/), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(words, fc.integer({ min: 40, max: 400 }), (list, width) => {
        const broken = lines(list.join(" "), { width, size: 12 });
        expect(broken.join("").replaceAll(" ", "")).toBe(list.join(""));
        for (const line of broken) expect(roughWidth(line, 12)).toBeLessThanOrEqual(width);
      }),
      fixed,
    );
  });
});

describe("blocks moved apart", () => {
  it("keep their order, do not overlap and stay within bounds that have room", () => {
    const block = fc.record({
      wanted: fc.integer({ min: 0, max: 300 }),
      height: fc.integer({ min: 10, max: 40 }),
    });
    fc.assert(
      fc.property(fc.array(block, { minLength: 1, maxLength: 6 }), (blocks) => {
        const placed = spread(blocks, { from: -20, to: 320 })
          .map((middle, index) => ({ ...blocks[index]!, middle }))
          .sort((a, b) => a.middle - b.middle);
        placed.forEach(({ middle, height, wanted }, index) => {
          expect(middle - height / 2).toBeGreaterThanOrEqual(-20 - 1e-9);
          expect(middle + height / 2).toBeLessThanOrEqual(320 + 1e-9);
          const next = placed[index + 1];
          if (next) expect(next.middle - next.height / 2).toBeGreaterThanOrEqual(middle + height / 2 - 1e-9);
          if (next) expect(next.wanted).toBeGreaterThanOrEqual(wanted);
        });
      }),
      fixed,
    );
  });
});

describe("axes", () => {
  it.each([
    { values: [], domain: [0, 0.2] },
    { values: [3.2, 4.9], domain: [0, 5] },
    { values: [-0.1, 0.31], domain: [-0.1, 0.4] },
    { values: [-22.1, 7.4], domain: [-30, 10] },
  ])("linear over $values ends at $domain", ({ values, domain }) => {
    expect(linearAxis(values, 5).domain).toEqual(domain);
  });

  it.each([
    { values: [], domain: [0.5, 2] },
    { values: [0.83, 3.1], domain: [0.5, 4] },
    { values: [0.0001, 900], domain: [1 / 16, 16] },
    { values: [0, 4], domain: [1 / 16, 4] },
  ])("of ratios over $values ends at $domain", ({ values, domain }) => {
    expect(ratioAxis(values).domain).toEqual(domain);
  });
});
