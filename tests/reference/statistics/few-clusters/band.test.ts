import { describe, expect, it } from "vitest";
import {
  clusteredBand,
  equalPrecisionCritical,
  simultaneousBand,
} from "../../../../src/statistics/survival/bands/index.js";
import { expectAllClose, expectClose } from "../reference-data.js";
import { bandExpected, finger } from "./few-clusters.js";

const rows = { times: finger("time"), events: finger("cause").map((cause) => (cause === 1 ? 1 : 0)) };
const clusters = finger("person");

describe("band over persons, against R package survival 3.5.3: its influences under 400,000 draws of normal multipliers", () => {
  const band = clusteredBand({ ...rows, clusters }, { seed: 1, draws: 40_000 });

  it("times, and the errors that the band is so many times", () => {
    expect(band.times).toEqual(bandExpected.times);
    const { criticalValue, notYet, lower } = band;
    // log-log: lower = S^exp(c s / |log S|)
    const errors = notYet.map((share, at) => {
      const log = Math.log(share);
      return (Math.log(Math.log(lower[at]!) / log) * -log) / criticalValue!;
    });
    expectAllClose(errors, bandExpected.error_of_log, { rel: 1e-8, what: "error of log S" });
  });

  it("critical values, to what random numbers allow", () => {
    expectClose(band.criticalValue! / band.widening!, bandExpected.critical, {
      rel: 0,
      abs: 0.02,
      what: "95 %",
    });
    const wide = clusteredBand({ ...rows, clusters }, { seed: 2, draws: 40_000, level: 0.9 });
    expectClose(wide.criticalValue! / wide.widening!, bandExpected.critical_90, {
      rel: 0,
      abs: 0.02,
      what: "90 %",
    });
  });
});

describe("one time alone", () => {
  it("has the quantile of the normal distribution as its critical value", () => {
    const times = Array.from({ length: 60 }, (_, row) => row + 1);
    const events = times.map(() => 1);
    const band = clusteredBand({ times, events }, { from: 30, to: 30, seed: 3, draws: 40_000 });
    expect(band.times).toEqual([30]);
    expectClose(band.criticalValue! / band.widening!, 1.959963984540054, {
      rel: 0,
      abs: 0.03,
      what: "97.5 % quantile",
    });
  });
});

describe("many rows, each by itself", () => {
  it("the drawn critical value is that of the exact distribution, Nair 1984, Technometrics 26:265, less what lies between two times", () => {
    const times = Array.from({ length: 700 }, (_, at) => 1 + ((at * 607) % 997));
    const events = times.map((time, at) => ((at * 31 + time) % 4 === 0 ? 0 : 1));
    const within = { from: 100, to: 800 };
    const { range } = simultaneousBand({ times, events }, within);
    const band = clusteredBand({ times, events }, { ...within, seed: 5, draws: 5000 });
    // the exact value is for every moment, the drawn one for the times of events: lower by about 0.58 sqrt(2 x step), Siegmund 1979, Adv Appl
    // Probab 11:701 (from memory), here about 0.06
    const { from, to } = range!;
    const duration = 0.5 * Math.log((to * (1 - from)) / (from * (1 - to)));
    const steps = times.filter(
      (time, at) => events[at] === 1 && time >= within.from && time <= within.to,
    ).length;
    const between = 0.5826 * Math.sqrt((2 * duration) / steps);
    expectClose(band.criticalValue! / band.widening!, equalPrecisionCritical(range!) - between, {
      rel: 0,
      abs: 0.03,
      what: "critical value",
    });
  });
});
