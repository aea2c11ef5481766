import { describe, expect, it } from "vitest";
import { seededGenerator } from "../../../src/statistics/index.js";

const streams = 1000;
const draws = 50;

/** Mean and standard deviation over the n-th draw of all streams of a seed. */
function acrossStreams(seed: number, draw: number): { mean: number; deviation: number } {
  const values = Array.from({ length: streams }, (_, stream) => {
    const generator = seededGenerator(seed, stream);
    for (let before = 0; before < draw; before++) generator.uniform();
    return generator.uniform();
  });
  const mean = values.reduce((sum, value) => sum + value, 0) / streams;
  return {
    mean,
    deviation: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (streams - 1)),
  };
}

describe("seeded generator", () => {
  it.each([0, 1, 2, 3, 2024])(
    "seed %i: first, second and tenth draws over 1,000 streams are uniform",
    (seed) => {
      for (const draw of [0, 1, 9]) {
        const { mean, deviation } = acrossStreams(seed, draw);
        // four standard errors: 0.2887 / sqrt(1000) = 0.0091; of the deviation 0.0041
        expect(Math.abs(mean - 0.5)).toBeLessThan(0.037);
        expect(Math.abs(deviation - Math.sqrt(1 / 12))).toBeLessThan(0.017);
      }
    },
  );

  it("first draws of 1,000 neighbouring seeds are uniform and those of neighbouring streams unrelated", () => {
    const first = Array.from({ length: streams }, (_, seed) => seededGenerator(seed, 0).uniform());
    const second = Array.from({ length: streams }, (_, seed) => seededGenerator(seed, 1).uniform());
    const mean = first.reduce((sum, value) => sum + value, 0) / streams;
    expect(Math.abs(mean - 0.5)).toBeLessThan(0.037);
    const product = first.reduce((sum, value, at) => sum + (value - 0.5) * (second[at]! - 0.5), 0);
    // a correlation has standard error 1 / sqrt(1000) = 0.032
    expect(Math.abs((product * 12) / streams)).toBeLessThan(0.127);
  });

  it("normal draws over 1,000 streams: mean, deviation, share beyond 1.96", () => {
    const values: number[] = [];
    for (let stream = 0; stream < streams; stream++) {
      const generator = seededGenerator(7, stream);
      for (let draw = 0; draw < draws; draw++) values.push(generator.normal());
    }
    const n = values.length;
    const mean = values.reduce((sum, value) => sum + value, 0) / n;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / n;
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    const beyond = values.filter((value) => Math.abs(value) > 1.959964).length / n;
    expect(Math.abs(beyond - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / n));
  });

  it("whole numbers: each of 0 to 6 about as often, none outside", () => {
    const generator = seededGenerator(11, 3);
    const counts = new Array<number>(7).fill(0);
    for (let draw = 0; draw < 7000; draw++) counts[generator.integer(7)]!++;
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(7000);
    // a count has standard deviation 29
    for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(120);
  });

  it("the same seed and stream give the same draws; another stream others", () => {
    const take = (seed: number, stream: number) => {
      const generator = seededGenerator(seed, stream);
      return [generator.uniform(), generator.normal(), generator.integer(1000), generator.normal()];
    };
    expect(take(5, 9)).toEqual(take(5, 9));
    expect(take(5, 9)).not.toEqual(take(5, 10));
    expect(take(5, 9)).not.toEqual(take(9, 5));
  });

  it("a seed or stream that is no whole number, and a range of nothing, are errors", () => {
    expect(() => seededGenerator(1.5, 0)).toThrow("seed must be a whole number; found 1.5");
    expect(() => seededGenerator(1, -1)).toThrow("stream must be a whole number, 0 or more; found -1");
    expect(() => seededGenerator(1, 0).integer(0)).toThrow("below must be a finite number above 0; found 0");
  });
});
