import { describe, expect, it } from "vitest";
import { normalCritical, normalUpperTail } from "../../../../src/statistics/shared/distributions.js";
import { probabilityOfBridgeStaying } from "../../../../src/statistics/survival/bands/brownian-bridge.js";
import {
  equalPrecisionCritical,
  hallWellnerCritical,
  simultaneousBand,
} from "../../../../src/statistics/survival/bands/index.js";
import { cumulativeHazard } from "../../../../src/statistics/survival/cumulative-hazard.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

describe("critical values of simultaneous bands", () => {
  const { expected } = referenceCase("bands", "critical_values");

  it("R 4.2.2, solved exactly on a grid of ranges (eigenvalues; reflected bridge)", () => {
    const ranges = (expected.aL as number[]).map((from, at) => ({ from, to: expected.aU[at]! }));
    expectAllClose(
      ranges.map((range) => equalPrecisionCritical(range)),
      expected.equal_precision_exact,
      { rel: 1e-10, what: "equal precision" },
    );
    expectAllClose(
      ranges.map((range) => hallWellnerCritical(range)),
      expected.hall_wellner_exact,
      { rel: 1e-10, what: "Hall-Wellner" },
    );
  });

  it("Hall & Wellner 1980, Biometrika 67:133: their series for a range from 0", () => {
    const closed = (k: number, a: number): number => {
      const r = k * Math.sqrt((1 - a) / a);
      const d = 1 / (1 - a);
      let sum = 1 - 2 * normalUpperTail(k / Math.sqrt(a * (1 - a)));
      for (let j = 1; j <= 50; j++)
        sum +=
          2 *
          (-1) ** j *
          Math.exp(-2 * j * j * k * k) *
          (normalUpperTail(-r * (2 * j + d)) - normalUpperTail(-r * (2 * j - d)));
      return sum;
    };
    for (const a of [0.1, 0.25, 0.5, 0.75, 0.9])
      for (const k of [0.5, 0.8, 1.2, 1.6])
        expectClose(probabilityOfBridgeStaying(k, { from: 0, to: a }), closed(k, a), {
          rel: 1e-12,
          what: `k ${k}, a ${a}`,
        });
  });

  it("a whole range: Kolmogorov's 1.3581 (Smirnov 1948, Ann Math Stat 19:279)", () => {
    expect(hallWellnerCritical({ from: 0, to: 1 - 1e-9 })).toBeCloseTo(1.3581, 4);
  });

  it("one point: the normal value, by hand", () => {
    expectClose(equalPrecisionCritical({ from: 0.3, to: 0.3 }), normalCritical(0.95), {
      rel: 1e-14,
      what: "c",
    });
    expectClose(hallWellnerCritical({ from: 0.3, to: 0.3 }), normalCritical(0.95) * Math.sqrt(0.21), {
      rel: 1e-14,
      what: "k",
    });
  });
});

describe("bands: bone marrow transplants, Klein & Moeschberger 2003, Survival Analysis", () => {
  const rows = referenceRows("bands", "bmt.csv").filter((row) => row.group === "ALL");
  const columns = { times: numbers(rows, "t_dfs"), events: numbers(rows, "dfs_event") };
  const scales = [
    ["plain", "plain"],
    ["log-log", "loglog"],
    ["arcsine", "arcsine"],
  ] as const;
  const kinds = [
    ["equal-precision", "equal_precision"],
    ["hall-wellner", "hall_wellner"],
  ] as const;

  for (const [id, range] of [
    ["bmt_all_100_600", { from: 100, to: 600 }],
    ["bmt_all_full_range", {}],
  ] as const)
    for (const [kind, name] of kinds)
      it.each(scales)(`R 4.2.2, ${id}, ${kind}, %s`, (scale, stored) => {
        const { expected } = referenceCase("bands", id);
        const band = simultaneousBand(columns, { ...range, kind, scale });
        expectClose(band.criticalValue, expected[name].critical_exact, { rel: 1e-9, what: "critical" });
        expectClose(band.range?.from, expected.aL, { rel: 1e-9, what: "aL" });
        expectClose(band.range?.to, expected.aU, { rel: 1e-9, what: "aU" });
        expectAllClose(band.times, expected.time, { rel: 0, what: "times" });
        expectAllClose(band.notYet, expected.survival, { rel: 1e-9, what: "survival" });
        expectAllClose(band.lower, expected[name][stored].lower, { rel: 1e-9, what: "lower" });
        expectAllClose(band.upper, expected[name][stored].upper, { rel: 1e-9, what: "upper" });
      });
});

describe("cumulative hazard", () => {
  it.each(["6-MP", "placebo"])("remission trial, Freireich et al. 1963, Blood 21:699: %s", (group) => {
    const rows = referenceRows("km", "freireich.csv").filter((row) => row.group === group);
    const { expected } = referenceCase("km", group === "6-MP" ? "freireich_6mp" : "freireich_placebo");
    const result = cumulativeHazard({ times: numbers(rows, "weeks"), events: numbers(rows, "relapse") });
    expectAllClose(result.hazard, expected.curve.cumulative_hazard, { rel: 1e-12, what: "hazard" });
    expectAllClose(result.standardError, expected.curve.se_cumulative_hazard, { rel: 1e-12, what: "se" });
  });

  it("delayed entry: retirement home, Klein & Moeschberger 2003, Survival Analysis", () => {
    const rows = referenceRows("km", "channing_men.csv");
    const { expected } = referenceCase("km", "channing_delayed_entry");
    const result = cumulativeHazard({
      times: numbers(rows, "exit_months"),
      events: numbers(rows, "death"),
      entries: numbers(rows, "entry_months"),
    });
    expectAllClose(result.hazard, expected.curve.cumulative_hazard, { rel: 1e-12, what: "hazard" });
    expectAllClose(result.standardError, expected.curve.se_cumulative_hazard, { rel: 1e-12, what: "se" });
  });

  it("limits by hand: H = 1/2 from one of two, se 1/2", () => {
    const z = normalCritical(0.95);
    const columns = { times: [3, 5], events: [1, 0] };
    const onLog = cumulativeHazard(columns);
    expectAllClose(onLog.lower, [0.5 * Math.exp(-z), 0.5 * Math.exp(-z)], { rel: 1e-14, what: "lower" });
    const plain = cumulativeHazard(columns, { interval: "plain" });
    expectAllClose(plain.upper, [0.5 + z / 2, 0.5 + z / 2], { rel: 1e-14, what: "upper" });
    expect(plain.lower).toEqual([0, 0]);
  });
});
