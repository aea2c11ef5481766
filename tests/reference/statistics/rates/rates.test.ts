import { describe, expect, it } from "vitest";
import {
  chiSquareLowerTail,
  chiSquareQuantile,
  chiSquareUpperTail,
} from "../../../../src/statistics/index.js";
import { proportionInterval } from "../../../../src/statistics/proportions/index.js";
import { clusteredRate, eventRate, rateRatio } from "../../../../src/statistics/rates/index.js";
import { type Expected, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const rel = 1e-9;
const finite = (value: unknown) => (value === "Infinity" ? null : value);

describe("events per person-time against R 4.2.2, poisson.test", () => {
  const { rates } = referenceCase("rates", "rates").expected;
  it.each(rates as Expected[])("$events in $person_time, level $level", (wanted: Expected) => {
    const { events, person_time: personTime, level } = wanted;
    const found = eventRate({ events, personTime }, { level });
    expectClose(found.estimate, wanted.rate, { rel, what: "rate" });
    expectClose(found.lower, wanted.lower, { rel, what: "lower" });
    expectClose(found.upper, wanted.upper, { rel, what: "upper" });
  });

  it("no event in 30: the upper limit is -log(0.025) / 30, by hand", () => {
    expectClose(eventRate({ events: 0, personTime: 30 }).upper, -Math.log(0.025) / 30, {
      rel,
      what: "upper",
    });
  });

  it("nobody followed: no rate", () => {
    expect(eventRate({ events: 0, personTime: 0 })).toMatchObject({ estimate: null, reason: "no-rows" });
  });
});

describe("ratio of two rates against R 4.2.2, poisson.test", () => {
  const { ratios } = referenceCase("rates", "ratios").expected;
  const both = ({ events, person_times }: Expected) => ({
    a: { events: events[0], personTime: person_times[0] },
    b: { events: events[1], personTime: person_times[1] },
  });

  it.each(ratios as Expected[])("$events in $person_times, level $level", (wanted: Expected) => {
    const found = rateRatio(both(wanted), { level: wanted.level });
    expectClose(found.estimate, finite(wanted.ratio), { rel, what: "ratio" });
    expectClose(found.lower, wanted.lower, { rel, what: "lower" });
    expectClose(found.upper, finite(wanted.upper), { rel, what: "upper" });
    expectClose(found.p, Math.min(1, 2 * Math.min(wanted.greater, wanted.less)), { rel, what: "p" });
    expect(found.reason).toBe(wanted.ratio === "Infinity" ? "not-positive" : null);
  });

  it("equal times: the limits are the odds of the exact limits of the share", () => {
    const found = rateRatio({ a: { events: 7, personTime: 90 }, b: { events: 4, personTime: 90 } });
    const { lower, upper } = proportionInterval({ successes: 7, n: 11 }, { method: "exact" });
    expectClose(found.lower, lower! / (1 - lower!), { rel, what: "lower" });
    expectClose(found.upper, upper! / (1 - upper!), { rel, what: "upper" });
  });

  it("no events at all: nothing to be said", () => {
    const none = { events: 0, personTime: 5 };
    expect(rateRatio({ a: none, b: none })).toMatchObject({
      estimate: null,
      lower: null,
      reason: "no-events",
    });
  });
});

describe("events per person-time where rows belong together, against base R 4.2.2", () => {
  const rows = referenceRows("rates", "fingers.csv");
  const fingers = {
    events: numbers(rows, "events"),
    personTimes: numbers(rows, "time"),
    clusters: numbers(rows, "person"),
  };
  it.each([
    ["fingers", fingers],
    ["without_events", { ...fingers, events: rows.map(() => 0) }],
    ["each_its_own", { ...fingers, clusters: rows.map((_, row) => row) }],
  ] as const)("%s", (id, columns) => {
    const wanted = referenceCase("rates", "clustered").expected[id];
    const found = clusteredRate(columns);
    const pairs = [
      ["events", found.events, wanted.events],
      ["time", found.personTime, wanted.person_time],
      ["clusters", found.clusters, wanted.clusters],
      ["rate", found.estimate, wanted.rate],
      ["error", found.standardError, wanted.se],
      ["design effect", found.designEffect, wanted.design_effect],
      ["lower", found.lower, wanted.lower],
      ["upper", found.upper, wanted.upper],
    ] as const;
    for (const [what, value, expected] of pairs) expectClose(value, expected, { rel, what });
  });

  it("one event in each of equal times: no more spread than chance, the limits are Garwood's", () => {
    const even = { events: [1, 1, 1, 1], personTimes: [9, 9, 9, 9], clusters: [1, 2, 3, 4] };
    const { lower, upper } = eventRate({ events: 4, personTime: 36 });
    expect(clusteredRate(even)).toMatchObject({ designEffect: 1, lower, upper });
  });
});

describe("chi-square with many degrees of freedom against R 4.2.2", () => {
  const { tails, quantiles } = referenceCase("rates", "many_degrees").expected;

  it("tails, of which R gives no more than eleven digits far out", () => {
    (tails.df as number[]).forEach((df, at) => {
      const [x, what] = [tails.x[at], `df ${df}, ${tails.x[at]}`];
      expectClose(chiSquareLowerTail(x, df), tails.lower[at], { rel: 1e-11, abs: 0, what: `${what}: lower` });
      expectClose(chiSquareUpperTail(x, df), tails.upper[at], { rel: 1e-11, abs: 0, what: `${what}: upper` });
    });
  });

  it("quantiles", () => {
    (quantiles.df as number[]).forEach((df, at) => {
      const found = chiSquareQuantile(quantiles.p[at], df);
      expectClose(found, quantiles.x[at], { rel: 1e-12, what: `df ${df}, p ${quantiles.p[at]}` });
    });
  });
});
