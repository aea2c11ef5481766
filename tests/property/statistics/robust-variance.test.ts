import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  productLimit,
  restrictedMean,
  shareAt,
  standardisedCurves,
  type TimeToEvent,
} from "../../../src/statistics/index.js";
import { type CohortRow, largeCohort } from "./cohorts.js";

/** The robust variance by its definition: derivatives by the weights, taken numerically, times the weights, summed within clusters. */
function byDerivatives(
  columns: TimeToEvent & { readonly weights: readonly number[]; readonly clusters: readonly number[] },
  figure: (weights: readonly number[]) => number,
): number {
  const sums = new Map<number, number>();
  const step = 1e-5;
  columns.clusters.forEach((cluster, row) => {
    const moved = (by: number) => columns.weights.map((weight, at) => (at === row ? weight + by : weight));
    const slope = (figure(moved(step)) - figure(moved(-step))) / (2 * step);
    sums.set(cluster, (sums.get(cluster) ?? 0) + columns.weights[row]! * slope);
  });
  return [...sums.values()].reduce((total, sum) => total + sum * sum, 0);
}

const withEverything = (rows: readonly CohortRow[]) => ({
  times: rows.map((one) => one.time + 1),
  events: rows.map((one) => one.event),
  entries: rows.map((one) => (one.x > 2 ? Math.floor(one.time / 2) : -1)),
  weights: rows.map((one) => 0.5 + one.stratum / 3),
  clusters: rows.map((_, at) => Math.floor(at / 2)),
});

// numerical derivatives are right to about eight digits
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-10 + 1e-5 * Math.abs(b);
const settings = { seed: 7, numRuns: 20 } as const;

describe("robust variance with weights, clusters and delayed entry is the sum of squared derivatives by the weights", () => {
  test("of the share at any time", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const columns = withEverything(rows);
        const curve = productLimit(columns);
        return [5, 12, 25].every((time) => {
          const found = shareAt(curve, time);
          if (found.standardError === null || found.notYet === null || found.notYet < 1e-6) return true;
          const at = (weights: readonly number[]) =>
            shareAt(productLimit({ ...columns, weights }), time).notYet!;
          return close(found.standardError ** 2, byDerivatives(columns, at));
        });
      }),
      settings,
    );
  });

  test("of the restricted mean", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const columns = withEverything(rows);
        const found = restrictedMean(columns, { horizon: 20 });
        const at = (weights: readonly number[]) =>
          restrictedMean({ ...columns, weights }, { horizon: 20 }).estimate!;
        return close(found.standardError! ** 2, byDerivatives(columns, at));
      }),
      settings,
    );
  });

  test("of the standardised difference, clusters across groups and strata included", () => {
    let compared = 0;
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const { entries: _entries, ...plain } = withEverything(rows);
        const columns = {
          ...plain,
          groups: rows.map((one) => one.group),
          strata: rows.map((one) => one.stratum),
        };
        const ask = { horizon: 12, times: [8], smallest: 2 };
        const found = standardisedCurves(columns, ask);
        if (found.shares === null) return found.reason === "no-overlap";
        compared++;
        const again = (weights: readonly number[]) => standardisedCurves({ ...columns, weights }, ask);
        const share = byDerivatives(columns, (weights) => again(weights).shares![0]!.difference.difference!);
        const mean = byDerivatives(
          columns,
          (weights) => again(weights).restrictedMean!.difference.difference!,
        );
        return (
          close(found.shares[0]!.difference.standardError! ** 2, share) &&
          close(found.restrictedMean!.difference.standardError! ** 2, mean)
        );
      }),
      settings,
    );
    expect(compared).toBeGreaterThan(15);
  });
});
