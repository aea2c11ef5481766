import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  commonEffect,
  heterogeneity,
  leaveOneOut,
  metaRegression,
  pooledShare,
  randomEffects,
  smallStudyAsymmetry,
  subgroups,
} from "../../../src/statistics/pooling/index.js";
import { near, settings } from "./cohorts.js";

const site = fc.record({
  estimate: fc.integer({ min: -300, max: 300 }).map((n) => n / 100),
  variance: fc.integer({ min: 1, max: 400 }).map((n) => n / 100),
  group: fc.integer({ min: 0, max: 2 }),
  x: fc.integer({ min: -20, max: 20 }).map((n) => n / 4),
  size: fc.integer({ min: 1, max: 60 }),
  part: fc.integer({ min: 0, max: 8 }).map((n) => n / 8),
});
type Site = typeof site extends fc.Arbitrary<infer One> ? One : never;
const sites = fc.array(site, { minLength: 1, maxLength: 14 });

const columns = (all: readonly Site[]) => ({
  estimates: all.map(({ estimate }) => estimate),
  variances: all.map(({ variance }) => variance),
});
const shares = (all: readonly Site[]) => ({
  events: all.map(({ size, part }) => Math.round(size * part)),
  sizes: all.map(({ size }) => size),
});
const law = (holds: (all: readonly Site[]) => boolean): void =>
  fc.assert(fc.property(sites, holds), settings);

/** Figures by their path, but for those of single sites. */
function figures(value: unknown, path = ""): Map<string, unknown> {
  const found = new Map<string, unknown>();
  if (typeof value !== "object" || value === null) return found.set(path, value);
  for (const [name, member] of Object.entries(value))
    if (!["weights", "leftOut", "gradient"].includes(name))
      for (const [at, one] of figures(member, `${path}/${name}`)) found.set(at, one);
  return found;
}
const close = (a: unknown, b: unknown): boolean =>
  a === b || (typeof a === "number" && typeof b === "number" && near(a, b, 1e-7));
const same = (a: unknown, b: unknown): boolean => {
  const [one, other] = [figures(a), figures(b)];
  return one.size === other.size && [...one].every(([path, value]) => close(value, other.get(path)));
};

const ofEstimates = [commonEffect, heterogeneity, smallStudyAsymmetry] as const;
const spreads = ["restricted-likelihood", "paule-mandel", "dersimonian-laird", "likelihood"] as const;

describe("answers of sites pooled", () => {
  test("the order of the sites does not matter", () => {
    law((all) => {
      const turned = [...all].reverse();
      return (
        ofEstimates.every((of) => same(of(columns(all)), of(columns(turned)))) &&
        spreads.every((spread) =>
          same(randomEffects(columns(all), { spread }), randomEffects(columns(turned), { spread })),
        ) &&
        same(pooledShare(shares(all)), pooledShare(shares(turned)))
      );
    });
  });

  test("a site that tells nothing changes nothing, and is named", () => {
    law((all) => {
      const known = columns(all);
      const [first, last] = [
        { estimate: 0.7, variance: Infinity },
        { estimate: null, variance: 2 },
      ];
      const more = {
        estimates: [first.estimate, ...known.estimates, last.estimate],
        variances: [first.variance, ...known.variances, last.variance],
      };
      const found = randomEffects(more);
      const left = found.leftOut.map(({ site: place, reason }) => `${place} ${reason}`);
      return (
        same(found, randomEffects(known)) &&
        left.join() === `0 not-finite,${all.length + 1} no-estimate` &&
        found.weights[0] === 0 &&
        same(commonEffect(more), commonEffect(known))
      );
    });
  });

  test("a site of a huge variance is as good as none", () => {
    law((all) => {
      const known = columns(all);
      const more = { estimates: [...known.estimates, 1], variances: [...known.variances, 1e14] };
      const [one, other] = [commonEffect(more), commonEffect(known)];
      return (
        near(one.estimate!, other.estimate!, 1e-6) && near(one.standardError!, other.standardError!, 1e-6)
      );
    });
  });

  test("another unit and another origin change nothing but unit and origin", () => {
    law((all) => {
      const known = columns(all);
      const moved = {
        estimates: known.estimates.map((y) => 3 + 4 * y),
        variances: known.variances.map((v) => 16 * v),
      };
      return spreads.every((spread) => {
        const [one, other] = [randomEffects(known, { spread }), randomEffects(moved, { spread })];
        const back = (value: number | null) => (value === null ? null : 3 + 4 * value);
        return (
          close(back(one.estimate), other.estimate) &&
          close(back(one.lower), other.lower) &&
          close(back(one.prediction.upper), other.prediction.upper) &&
          close(
            one.spread.tauSquared === null ? null : 16 * one.spread.tauSquared,
            other.spread.tauSquared,
          ) &&
          close(one.heterogeneity.q, other.heterogeneity.q)
        );
      });
    });
  });

  test("the interval is never narrower than the normal one, and the prediction never narrower than it", () => {
    law((all) => {
      if (all.length < 3) return true;
      const [ours, normal] = [
        randomEffects(columns(all)),
        randomEffects(columns(all), { interval: "normal" }),
      ];
      const slack = 1e-12;
      return (
        ours.lower! <= normal.lower! + slack &&
        ours.upper! >= normal.upper! - slack &&
        ours.prediction.lower! <= ours.lower! + slack &&
        ours.prediction.upper! >= ours.upper! - slack
      );
    });
  });

  test("weights are shares of one; the spread converges; the estimate lies among the sites", () => {
    law((all) =>
      spreads.every((spread) => {
        const found = randomEffects(columns(all), { spread });
        const { estimates } = columns(all);
        return (
          near(
            found.weights.reduce((sum, weight) => sum + weight, 0),
            1,
            1e-12,
          ) &&
          (all.length < 2 || found.spread.converged) &&
          found.estimate! >= Math.min(...estimates) - 1e-9 &&
          found.estimate! <= Math.max(...estimates) + 1e-9
        );
      }),
    );
  });

  test("without covariates and with one group it is the pooled answer", () => {
    law((all) => {
      if (all.length < 2) return true;
      const whole = randomEffects(columns(all));
      const line = metaRegression({ ...columns(all), covariates: { names: [], columns: [] } });
      const group = subgroups({ ...columns(all), groups: all.map(() => 4) }).groups[0]!;
      return [line.coefficients[0], group.estimate].every((value) => close(value, whole.estimate)) &&
        [line.standardErrors[0], group.standardError].every((value) => close(value, whole.standardError))
        ? close(line.lower[0], whole.lower) && close(group.upper, whole.upper)
        : false;
    });
  });

  test("one site left out is the answer of the others", () => {
    law((all) => {
      const without = leaveOneOut(columns(all));
      return without.every(({ site: place, pooled }) =>
        same(pooled, randomEffects(columns(all.filter((_, i) => i !== place)))),
      );
    });
  });
});

describe("shares by exact counts", () => {
  test("events and their absence change places: the share becomes the rest", () => {
    law((all) => {
      const given = shares(all);
      const turned = { events: given.events.map((x, i) => given.sizes[i]! - x), sizes: given.sizes };
      const [one, other] = [pooledShare(given), pooledShare(turned)];
      const rest = (value: number | null) => (value === null ? null : 1 - value);
      return (
        close(rest(one.estimate), other.estimate) &&
        close(rest(one.upper), other.lower) &&
        close(rest(one.prediction.lower), other.prediction.upper) &&
        close(one.spread.tau, other.spread.tau)
      );
    });
  });

  test("limits lie between 0 and 1 on both sides of the share, and the prediction around them", () => {
    law((all) => {
      const { estimate, lower, upper, prediction, reason } = pooledShare(shares(all));
      if (reason !== null) return lower === null && upper === null;
      const inside = 0 <= lower! && lower! <= estimate! && estimate! <= upper! && upper! <= 1;
      return (
        inside && (prediction.lower === null || (prediction.lower <= lower! && upper! <= prediction.upper!))
      );
    });
  });

  test("sites of one share have no spread, and the share of all: by hand", () => {
    const found = pooledShare({ events: [3, 6, 30], sizes: [5, 10, 50] });
    expect(found.spread.tau).toBe(0);
    expect(found.estimate).toBeCloseTo(0.6, 12);
    expect(found.standardError).toBeCloseTo(1 / Math.sqrt(65 * 0.6 * 0.4), 9);
  });
});
