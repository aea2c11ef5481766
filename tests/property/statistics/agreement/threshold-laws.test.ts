import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  accuracyAt,
  chooseThreshold,
  compareAreas,
  rocArea,
  rocCurve,
} from "../../../../src/statistics/agreement/index.js";
import { settings } from "../cohorts.js";

const row = fc.record({
  value: fc.integer({ min: -8, max: 8 }),
  other: fc.integer({ min: -8, max: 8 }),
  state: fc.integer({ min: 0, max: 1 }),
  person: fc.integer({ min: 0, max: 6 }),
});
const rowsOf = fc
  .array(row, { minLength: 4, maxLength: 40 })
  .filter((rows) => new Set(rows.map(({ state }) => state)).size === 2);
type Row = {
  readonly value: number;
  readonly other: number;
  readonly state: number;
  readonly person: number;
};
const columns = (rows: readonly Row[]) => ({
  values: rows.map(({ value }) => value),
  states: rows.map(({ state }) => state),
});

function close(a: number | null | undefined, b: number | null | undefined): void {
  if (typeof a !== "number" || typeof b !== "number") expect(a ?? null).toBe(b ?? null);
  else expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-10 * Math.max(1, Math.abs(b)));
}

describe("laws of the area under the curve", () => {
  it("is the share of pairs in order, ties one half, counted pair by pair", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const affected = rows.filter(({ state }) => state === 1);
        const healthy = rows.filter(({ state }) => state === 0);
        const pairs = affected.flatMap(({ value: x }) =>
          healthy.map(({ value: y }) => (x > y ? 1 : x === y ? 0.5 : 0)),
        );
        const share = pairs.reduce<number>((sum, one) => sum + one, 0) / pairs.length;
        close(rocArea(columns(rows)).area, share);
      }),
      settings,
    );
  });

  it("high and low add up to 1, with one error; a rising scale changes nothing", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const { values, states } = columns(rows);
        const high = rocArea({ values, states });
        const low = rocArea({ values, states }, { direction: "low" });
        const risen = rocArea({ values: values.map((value) => Math.exp(value / 3)), states });
        close(low.area, 1 - high.area!);
        close(low.standardError, high.standardError);
        close(risen.area, high.area);
        close(risen.standardError, high.standardError);
      }),
      settings,
    );
  });

  it("is the area under the points of the curve", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const { sensitivity, specificity } = rocCurve(columns(rows));
        let area = 0;
        for (let at = 1; at < sensitivity.length; at++)
          area += ((sensitivity[at]! + sensitivity[at - 1]!) / 2) * (specificity[at - 1]! - specificity[at]!);
        close(area, rocArea(columns(rows)).area);
      }),
      settings,
    );
  });

  it("every row its own cluster is no clustering; listing every row twice under one person changes nothing", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const plain = rocArea(columns(rows));
        const alone = rocArea({ ...columns(rows), clusters: rows.map((_, at) => 100 - at) });
        const twice = rocArea({
          ...columns([...rows, ...rows]),
          clusters: [...rows, ...rows].map((_, at) => at % rows.length),
        });
        close(alone.standardError, plain.standardError);
        close(twice.area, plain.area);
        close(twice.standardError, plain.standardError);
      }),
      settings,
    );
  });

  it("a comparison turned round has the other sign and the same test; order of rows does not matter", () => {
    fc.assert(
      fc.property(rowsOf, (rows) => {
        const compare = (list: readonly Row[], turned: boolean) => {
          const first = list.map(({ value, other }) => (turned ? other : value));
          const second = list.map(({ value, other }) => (turned ? value : other));
          const clusters = list.map(({ person }) => person);
          return compareAreas({ first, second, states: list.map(({ state }) => state), clusters });
        };
        const one = compare(rows, false);
        const two = compare(rows.slice().reverse(), true);
        close(two.difference, one.difference === null ? null : -one.difference);
        close(two.standardError, one.standardError);
        close(two.p, one.p);
      }),
      settings,
    );
  });
});

describe("laws of the chosen threshold", () => {
  it("no threshold of the curve has a larger index; its table is that of the threshold", () => {
    fc.assert(
      fc.property(rowsOf, fc.constantFrom("high", "low"), (rows, direction) => {
        const found = chooseThreshold(columns(rows), { seed: 3, replicates: 5, direction });
        const { sensitivity, specificity, thresholds } = rocCurve(columns(rows), { direction });
        const indices = sensitivity.slice(1).map((share, at) => share! + specificity[at + 1]! - 1);
        close(found.youden?.apparent, Math.max(...indices));
        expect(thresholds).toContain(found.threshold);
        const cut = accuracyAt(columns(rows), {
          threshold: found.threshold!,
          positiveWhen: direction === "high" ? "at or above" : "at or below",
        });
        expect(found.accuracy?.counts).toEqual(cut.counts);
        close(found.sensitivity?.apparent, cut.sensitivity.estimate);
        close(found.youden!.corrected, found.sensitivity!.corrected + found.specificity!.corrected - 1);
      }),
      settings,
    );
  });

  it("the same seed gives the same answer, and readings turned round with the direction another name for it", () => {
    fc.assert(
      fc.property(rowsOf, fc.boolean(), (rows, clustered) => {
        const { values, states } = columns(rows);
        const clusters = clustered ? { clusters: rows.map(({ person }) => person) } : {};
        const one = chooseThreshold({ values, states, ...clusters }, { seed: 9, replicates: 30 });
        const again = chooseThreshold({ values, states, ...clusters }, { seed: 9, replicates: 30 });
        const turned = chooseThreshold(
          { values: values.map((value) => -value), states, ...clusters },
          { seed: 9, replicates: 30, direction: "low" },
        );
        expect(again).toEqual(one);
        expect(turned.youden).toEqual(one.youden);
        close(turned.threshold, -one.threshold!);
        close(turned.thresholdLower, one.thresholdUpper === null ? null : -one.thresholdUpper);
      }),
      settings,
    );
  });

  it("readings that mean nothing: most of the apparent index is optimism (500 replicates, 40 rows, several draws)", () => {
    const draws = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 40, maxLength: 40 });
    const gains: number[] = [];
    fc.assert(
      fc.property(draws, (values) => {
        const found = chooseThreshold({ values, states: values.map((_, at) => at % 2) }, { seed: 4 });
        gains.push(found.youden!.optimism);
        expect(found.youden!.optimism).toBeGreaterThan(-0.05);
      }),
      { seed: 2024, numRuns: 20 },
    );
    expect(gains.reduce((sum, gain) => sum + gain, 0) / gains.length).toBeGreaterThan(0.03);
  });
});
