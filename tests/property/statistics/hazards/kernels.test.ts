import { describe, expect, it } from "vitest";
import { columnSums } from "../../../../src/statistics/hazards/likelihood/column-sums.js";
import { addCrossProducts } from "../../../../src/statistics/hazards/likelihood/cross-products.js";
import { exponentials } from "../../../../src/statistics/hazards/likelihood/exponentials.js";
import { seededGenerator } from "../../../../src/statistics/index.js";

const drawnColumns = (size: number, rows: number): Float64Array[] => {
  const { normal } = seededGenerator(3, size);
  return Array.from({ length: size }, () => Float64Array.from({ length: rows }, normal));
};

describe("exponentials in bulk against Math.exp", () => {
  it("differ by two units in the last digit at most, 20,000 values over the whole range", () => {
    const { uniform } = seededGenerator(1, 1);
    const values = Float64Array.from({ length: 20_000 }, (_, at) => (uniform() - 0.5) * 2 ** (at % 11));
    const found = values.slice();
    exponentials(found, { from: 0, to: found.length });
    values.forEach((value, at) => {
      expect(Math.abs(found[at]! / Math.exp(value) - 1)).toBeLessThan(5e-16);
    });
  });

  it("at 0, at the ends and beyond them; outside the range values stay", () => {
    const values = Float64Array.of(
      5,
      0,
      -0,
      699.9,
      -699.9,
      710,
      -720,
      1e9,
      -1e9,
      Infinity,
      -Infinity,
      NaN,
      6,
    );
    const found = values.slice();
    exponentials(found, { from: 1, to: found.length - 1 });
    expect([...found.slice(0, 3)]).toEqual([5, 1, 1]);
    for (const at of [3, 4]) expect(found[at]! / Math.exp(values[at]!)).toBeCloseTo(1, 14);
    expect([...found.slice(5)]).toEqual([Math.exp(710), Math.exp(-720), Infinity, 0, Infinity, 0, NaN, 6]);
  });
});

describe("products and sums of columns against their definition, 1 to 11 columns, rows beyond one strip", () => {
  it.each(Array.from({ length: 11 }, (_, k) => k + 1))("%i columns", (size) => {
    const rows = 700;
    const x = drawnColumns(size + 1, rows + 3);
    const weights = x.pop()!.slice(0, rows);
    const sumOf = (term: (at: number) => number): number =>
      weights.reduce((sum, weight, at) => sum + weight * term(at), 0);
    const into = new Float64Array(size * size).fill(1);
    addCrossProducts(into, x, { weights, rows, factor: -1 });
    const sums = new Float64Array(size);
    columnSums(x, weights, sums);
    x.forEach((a, j) => {
      expect(sums[j]).toBeCloseTo(
        sumOf((at) => a[at]!),
        10,
      );
      x.forEach((b, k) => {
        const product = sumOf((at) => a[at]! * b[at]!);
        // the upper triangle is left alone
        expect(into[j * size + k]).toBeCloseTo(k > j ? 1 : 1 - product, 10);
      });
    });
  });
});
