import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  incidenceCurve,
  meanTimeInterval,
  shareAt,
  shareDifference,
  standardisedCurves,
} from "../../../src/statistics/index.js";
import { proportionInterval } from "../../../src/statistics/proportions/index.js";
import { largeCohort, near, settings } from "./cohorts.js";

type Rows = typeof largeCohort extends fc.Arbitrary<infer Some> ? Some : never;

const columnsOf = (rows: Rows) => ({
  times: rows.map(({ time }) => time),
  // a third kind of end by the covariate, which nothing else here uses
  causes: rows.map(({ event, x }) => (event === 0 ? 0 : x > 2 ? 2 : 1)),
  groups: rows.map(({ group }) => group),
  strata: rows.map(({ stratum }) => stratum),
});
const asked = { horizon: 25, times: [0, 5, 12, 25], smallest: 2 };

const law = (holds: (rows: Rows) => boolean): void => fc.assert(fc.property(largeCohort, holds), settings);

describe("limits of shares standardised over strata", () => {
  test("are always given, within 0 to 1 and -1 to 1, on both sides of the estimate", () => {
    law((rows) => {
      const { shares } = standardisedCurves(columnsOf(rows), asked);
      return (shares ?? []).every(({ returned, difference }) => {
        const slack = 1e-12;
        const { difference: d, lower, upper, p } = difference;
        return (
          returned.every(
            (one) =>
              0 <= one.lower! &&
              one.lower! <= one.estimate + slack &&
              one.estimate <= one.upper! + slack &&
              one.upper! <= 1,
          ) &&
          -1 - slack <= lower! &&
          lower! <= d! + slack &&
          d! <= upper! + slack &&
          upper! <= 1 + slack &&
          p! >= 0 &&
          p! <= 1
        );
      });
    });
  });

  test("swapping the groups turns the difference round", () => {
    law((rows) => {
      const columns = columnsOf(rows);
      const turned = { ...columns, groups: columns.groups.map((group) => 1 - group) };
      const [a, b] = [standardisedCurves(columns, asked).shares, standardisedCurves(turned, asked).shares];
      return (a ?? []).every(({ difference }, at) => {
        const other = b![at]!.difference;
        return (
          near(difference.lower, -other.upper!, 1e-7) &&
          near(difference.upper, -other.lower!, 1e-7) &&
          near(difference.p, other.p, 1e-6)
        );
      });
    });
  });

  test("in one stratum are those of shareDifference", () => {
    law((rows) => {
      const columns = { ...columnsOf(rows), strata: rows.map(() => 3) };
      const { shares } = standardisedCurves(columns, asked);
      const curves = [0, 1].map((group) => {
        const own = rows.filter((one) => one.group === group);
        const { times, causes } = columnsOf(own);
        return incidenceCurve({ times, causes });
      });
      return (shares ?? []).every(({ time, difference }) => {
        const [b, a] = curves.map((curve) => {
          const share = shareAt(curve, time);
          return { ...share, returned: share.returned!, n: curve.n };
        });
        const wanted = shareDifference(a!, b!);
        return (
          near(difference.lower, wanted.lower, 1e-7) &&
          near(difference.upper, wanted.upper, 1e-7) &&
          near(difference.p, wanted.p, 1e-6)
        );
      });
    });
  });

  test("nobody censored: every row twice, both of one person, gives the limits of the rows once", () => {
    law((rows) => {
      const ended = rows.map((one) => ({ ...one, event: 1 }));
      const twice = [...ended, ...ended];
      const clusters = twice.map((_, row) => row % rows.length);
      const once = standardisedCurves(columnsOf(ended), asked);
      const doubled = standardisedCurves({ ...columnsOf(twice), clusters }, { ...asked, smallest: 4 });
      return (once.shares ?? []).every(({ returned, difference }, at) => {
        const other = doubled.shares![at]!;
        return (
          ([0, 1] as const).every(
            (group) =>
              near(returned[group].lower, other.returned[group].lower, 1e-6) &&
              near(returned[group].upper, other.returned[group].upper, 1e-6),
          ) && near(difference.lower, other.difference.lower, 1e-6)
        );
      });
    });
  });
});

describe("limits of shares at the ends", () => {
  const alike = (strata: number, rows: number) => ({
    times: Array.from({ length: 2 * strata * rows }, () => 10),
    causes: Array.from({ length: 2 * strata * rows }, () => 0),
    groups: Array.from({ length: 2 * strata * rows }, (_, row) => row % 2),
    strata: Array.from({ length: 2 * strata * rows }, (_, row) => row % strata),
  });

  test.each([1, 3, 5])("nobody back in %d strata of 7: those of nobody of all in one sample", (strata) => {
    const { shares } = standardisedCurves(alike(strata, 7), { horizon: 5, times: [5] });
    const wanted = proportionInterval({ successes: 0, n: 7 * strata });
    for (const one of shares![0]!.returned) {
      expect(one.lower).toBe(0);
      expect(one.upper).toBeCloseTo(wanted.upper!, 10);
    }
    expect(shares![0]!.difference).toMatchObject({ difference: 0, z: 0, p: 1 });
  });

  test("everybody given up is known not to be back: as many as gave up, not none", () => {
    const columns = { ...alike(1, 9), causes: alike(1, 9).causes.map(() => 2) };
    const [one] = standardisedCurves(columns, { horizon: 20, times: [20] }).shares!;
    expect(one!.returned[0].upper).toBeCloseTo(proportionInterval({ successes: 0, n: 9 }).upper!, 10);
  });

  test("p is the level at which the interval touches no difference", () => {
    fc.assert(
      fc.property(largeCohort, (rows) => {
        const found = standardisedCurves(columnsOf(rows), asked).shares?.at(-1)?.difference;
        if (found === undefined || found.p! < 1e-6 || found.p! > 0.999) return true;
        const at = standardisedCurves(columnsOf(rows), { ...asked, level: 1 - found.p! }).shares!.at(-1)!;
        const nearer = found.difference! > 0 ? at.difference.lower! : at.difference.upper!;
        return Math.abs(nearer) < 1e-8;
      }),
      settings,
    );
  });
});

describe("interval of a restricted mean", () => {
  const mean = fc.record({
    estimate: fc.double({ min: 0.01, max: 89.9, noNaN: true }),
    standardError: fc.double({ min: 0.001, max: 60, noNaN: true }),
    units: fc.integer({ min: 2, max: 60 }),
  });

  test("lies within 0 to the horizon and around its estimate; weeks for days divide it by seven", () => {
    fc.assert(
      fc.property(mean, ({ estimate, standardError, units }) => {
        const days = meanTimeInterval({ estimate, standardError }, { horizon: 90, units, curves: 1 });
        const weeks = meanTimeInterval(
          { estimate: estimate / 7, standardError: standardError / 7 },
          { horizon: 90 / 7, units, curves: 1 },
        );
        return (
          0 <= days.lower! &&
          days.lower! <= estimate &&
          estimate <= days.upper! &&
          days.upper! <= 90 &&
          near(days.lower, 7 * weeks.lower!, 1e-6) &&
          near(days.upper, 7 * weeks.upper!, 1e-6)
        );
      }),
      settings,
    );
  });

  test("time back in place of time not back turns it round", () => {
    fc.assert(
      fc.property(mean, ({ estimate, standardError, units }) => {
        const options = { horizon: 90, units, curves: 1 };
        const waited = meanTimeInterval({ estimate, standardError }, options);
        const back = meanTimeInterval({ estimate: 90 - estimate, standardError }, options);
        return near(back.lower, 90 - waited.upper!, 1e-6) && near(back.upper, 90 - waited.lower!, 1e-6);
      }),
      settings,
    );
  });

  test("by hand: 30 of 90 days, error 5, ten rows: t 2.2622 (tables), log odds -0.6931 -+ 2.2622 x 5 sqrt(10/9) / (90 x 2/9)", () => {
    const { lower, upper, p } = meanTimeInterval(
      { estimate: 30, standardError: 5 },
      { horizon: 90, units: 10, curves: 1 },
    );
    const half = (2.2622 * 5 * Math.sqrt(10 / 9)) / 20;
    expect(lower).toBeCloseTo(90 / (1 + 2 * Math.exp(half)), 3);
    expect(upper).toBeCloseTo(90 / (1 + 2 * Math.exp(-half)), 3);
    expect(p).toBeNull();
  });

  test("a mean at an end has none, nor has one of as many rows as curves", () => {
    const options = { horizon: 90, units: 10, curves: 1 };
    expect(meanTimeInterval({ estimate: 0, standardError: 1 }, options).reason).toBe("no-variance");
    expect(meanTimeInterval({ estimate: 90, standardError: 0 }, options).reason).toBe("no-variance");
    expect(meanTimeInterval({ estimate: 30, standardError: 1 }, { ...options, units: 1 }).reason).toBe(
      "too-few-rows",
    );
    expect(() => meanTimeInterval({ estimate: 91, standardError: 1 }, options)).toThrow(
      "estimate must be a number from 0 to the horizon, which is 90; found 91",
    );
  });
});
