import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { layOut } from "../../../../src/statistics/hazards/layout/layout.js";
import { informationByDeviations } from "../../../../src/statistics/hazards/likelihood/deviations.js";
import { expectedEvents } from "../../../../src/statistics/hazards/likelihood/exposure.js";
import { informationOf } from "../../../../src/statistics/hazards/likelihood/information.js";
import { moveHazards, moveTo } from "../../../../src/statistics/hazards/likelihood/move-state.js";
import { emptyState } from "../../../../src/statistics/hazards/likelihood/risk-state.js";

const seed = 20_261_125;

/** Rows with times from a few hundred (few ties) or a handful of values, weights that may be 0, up to three strata. */
const rows = fc
  .tuple(fc.constantFrom(5, 30, 1_000), fc.integer({ min: 1, max: 4 }), fc.boolean())
  .chain(([distinct, size, isWeighted]) =>
    fc.array(
      fc.record({
        time: fc.integer({ min: 1, max: distinct }),
        event: fc.boolean(),
        stratum: fc.integer({ min: 1, max: 3 }),
        weight: isWeighted ? fc.constantFrom(0, 0.5, 1, 2.25) : fc.constant(1),
        x: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: size, maxLength: size }),
      }),
      { minLength: 2, maxLength: 700 },
    ),
  );

describe("information of nearly untied times", () => {
  it.each(["efron", "breslow"] as const)(
    "%s: row by row from deviations it is what the means of the risk sets give",
    (ties) => {
      fc.assert(
        fc.property(rows, fc.double({ min: -0.8, max: 0.8, noNaN: true }), (drawn, slope) => {
          const size = drawn[0]!.x.length;
          const layout = layOut({
            times: drawn.map(({ time }) => time),
            events: drawn.map(({ event }) => Number(event)),
            strata: drawn.map(({ stratum }) => stratum),
            weights: drawn.map(({ weight }) => weight),
            covariates: {
              names: drawn[0]!.x.map((_, j) => `x${j}`),
              columns: drawn[0]!.x.map((_, j) => drawn.map(({ x }) => x[j]!)),
            },
          });
          const beta = Float64Array.from({ length: size }, (_, j) => slope / (j + 1));
          const [work, fromMeans, fromRows] = [layout.n, size * size, size * size].map(
            (length) => new Float64Array(length),
          ) as [Float64Array, Float64Array, Float64Array];
          const state = emptyState(layout, { ties });
          moveTo(state, beta, new Float64Array(size));
          informationOf(state, fromMeans, { work, factor: null });
          const other = emptyState(layout, { ties, means: "none" });
          moveHazards(other, beta);
          expectedEvents(other, work, null);
          informationByDeviations(other)(work, fromRows);
          const most = Math.max(1, ...fromMeans.map(Math.abs));
          fromMeans.forEach((value, at) => {
            expect(Math.abs(fromRows[at]! - value)).toBeLessThan(1e-10 * most);
          });
        }),
        { seed, numRuns: 200 },
      );
    },
  );
});
