import { describe, expect, it } from "vitest";
import {
  type Curve,
  numberAtRisk,
  prepareRiskSets,
  productLimit,
  quantileTime,
  shareAt,
  type TimeToEvent,
} from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const freireich = referenceRows("km", "freireich.csv");
const lung = referenceRows("km", "lung.csv");
const channing = referenceRows("km", "channing_men.csv");
const aml = referenceRows("km", "aml_weights.csv");
const flat = referenceRows("km", "flat_step.csv");

const weeks = (group: string): TimeToEvent => {
  const rows = freireich.filter((row) => row.group === group);
  return { times: numbers(rows, "weeks"), events: numbers(rows, "relapse") };
};
const timeStatus = (rows: typeof lung): TimeToEvent => ({
  times: numbers(rows, "time"),
  events: numbers(rows, "status"),
});
const from816 = channing.filter((row) => Number(row.exit_months) >= 816);

const cases: { source: string; id: string; columns: TimeToEvent }[] = [
  {
    source: "remission trial, 6-MP arm, Freireich et al. 1963, Blood 21:699",
    id: "freireich_6mp",
    columns: weeks("6-MP"),
  },
  {
    source: "remission trial, placebo arm, Freireich et al. 1963, Blood 21:699",
    id: "freireich_placebo",
    columns: weeks("placebo"),
  },
  {
    source: "advanced lung cancer, Loprinzi et al. 1994, J Clin Oncol 12:601",
    id: "lung_all",
    columns: timeStatus(lung),
  },
  { source: "the same, men", id: "lung_sex1", columns: timeStatus(lung.filter((row) => row.sex === "1")) },
  { source: "the same, women", id: "lung_sex2", columns: timeStatus(lung.filter((row) => row.sex === "2")) },
  {
    source: "retirement home with delayed entry, Klein & Moeschberger 2003, Survival Analysis",
    id: "channing_delayed_entry",
    columns: {
      times: numbers(channing, "exit_months"),
      events: numbers(channing, "death"),
      entries: numbers(channing, "entry_months"),
    },
  },
  {
    source: "the same, conditional on 816 months",
    id: "channing_from_816_months",
    columns: {
      times: numbers(from816, "exit_months"),
      events: numbers(from816, "death"),
      entries: numbers(from816, "entry_months").map((entry) => Math.max(entry, 815.5)),
    },
  },
  {
    source: "acute myelogenous leukaemia, Miller 1997, Survival Analysis, with made-up whole weights",
    id: "aml_integer_weights",
    columns: { ...timeStatus(aml), weights: numbers(aml, "weight_int") },
  },
  {
    source: "the same with made-up fractional weights",
    id: "aml_fractional_weights",
    columns: { ...timeStatus(aml), weights: numbers(aml, "weight_dec") },
  },
  {
    source: "made up: a step exactly at 0.75, an event at time 0",
    id: "flat_step_and_time_zero",
    columns: timeStatus(flat),
  },
];

const scales = { plain: "plain", log: "log", loglog: "log-log", logit: "logit", arcsine: "arcsine" } as const;
const shares = { p25: 0.25, p50: 0.5, p75: 0.75 } as const;

function expectQuantiles(curve: Curve, expected: Expected, flatStep: "start" | "middle"): void {
  for (const [name, p] of Object.entries(shares)) {
    const found = quantileTime(curve, p, { flatStep });
    for (const part of ["estimate", "lower", "upper"] as const)
      expectClose(found[part].value, expected[name][part], {
        rel: 1e-9,
        what: `${curve.interval} ${name} ${part}`,
      });
  }
}

describe("product-limit curves against R package survival 3.5.3 and the formulas written out", () => {
  describe.each(cases)("$source", ({ id, columns }) => {
    const { expected } = referenceCase("km", id);
    const rel = 1e-9;
    const curveOn = (interval: (typeof scales)[keyof typeof scales]): Curve =>
      productLimit(columns, { interval, variance: "greenwood" });

    it("numbers at risk, events, censored; share and Greenwood's standard error", () => {
      const curve = curveOn("log-log");
      expect(curve.n).toBe(expected.n);
      expectClose(curve.totalEvents, expected.events, { rel, what: "events" });
      expectAllClose(curve.times, expected.curve.time, { rel, what: "times" });
      expectAllClose(curve.atRisk, expected.curve.at_risk, { rel, what: "at risk" });
      expectAllClose(curve.events, expected.curve.events, { rel, what: "events" });
      expectAllClose(curve.censored, expected.curve.censored, { rel, what: "censored" });
      expectAllClose(curve.notYet, expected.curve.survival, { rel, what: "not yet" });
      expectAllClose(curve.standardError, expected.curve.se, { rel, what: "standard error" });
    });

    it.each(Object.entries(scales))("%s limits and quartiles", (name, interval) => {
      const curve = curveOn(interval);
      const limits = expected.ci95[name];
      // where the curve is 1 no interval is given, on any scale; the reference repeats the 1 for plain and log
      const unless1 = (values: Expected[]) =>
        values.map((value, at) => (curve.notYet[at] === 1 ? null : value));
      expectAllClose(curve.lower, unless1(limits.lower), { rel, what: "lower" });
      expectAllClose(curve.upper, unless1(limits.upper), { rel, what: "upper" });
      expectQuantiles(curve, expected.quantiles_first_time_rule[name], "start");
      expectQuantiles(curve, expected.quantiles_midpoint_rule[name], "middle");
    });

    it("at chosen times: shares, errors, counts", () => {
      const curve = curveOn("log-log");
      const at = expected.at_times;
      const atRisk = numberAtRisk(prepareRiskSets(columns), at.time);
      for (const [k, time] of (at.time as number[]).entries()) {
        const found = shareAt(curve, time);
        expectClose(atRisk[k], at.at_risk[k], { rel, what: `at risk at ${time}` });
        expectClose(found.atRisk, at.at_risk[k], { rel, what: `at risk at ${time}` });
        expectClose(found.cumulativeEvents, at.cumulative_events[k], { rel, what: `events by ${time}` });
        expectClose(found.cumulativeCensored, at.cumulative_censored[k], {
          rel,
          what: `censored by ${time}`,
        });
        // past the last follow-up the reference carries the curve on; ours says nothing there
        if (found.reason === "beyond-follow-up") {
          expect(time).toBeGreaterThan(curve.lastTime!);
          continue;
        }
        expectClose(found.notYet, at.survival[k], { rel, what: `not yet at ${time}` });
        expectClose(found.returned, at.cumulative_return[k], { rel, what: `returned by ${time}` });
        expectClose(found.standardError, at.se[k], { rel, what: `error at ${time}` });
      }
    });
  });

  it("robust standard error with fractional weights: acute myelogenous leukaemia, Miller 1997", () => {
    const { expected } = referenceCase("km", "aml_fractional_weights");
    const curve = productLimit(
      { ...timeStatus(aml), weights: numbers(aml, "weight_dec") },
      { variance: "robust" },
    );
    expectAllClose(curve.standardError, expected.robust.se_robust, { rel: 1e-9, what: "robust error" });
  });
});

describe("figures as printed", () => {
  it("remission trial, Klein & Moeschberger 2003, Table 4.1: shares and errors of the 6-MP arm", () => {
    const curve = productLimit(weeks("6-MP"));
    const printed = [
      [6, 0.857, 0.0764],
      [7, 0.807, 0.0869],
      [10, 0.753, 0.0963],
      [13, 0.69, 0.1068],
      [16, 0.627, 0.1141],
      [22, 0.538, 0.1282],
      [23, 0.448, 0.1346],
    ] as const;
    for (const [week, share, error] of printed) {
      expect(shareAt(curve, week).notYet).toBeCloseTo(share, 3);
      expect(shareAt(curve, week).standardError).toBeCloseTo(error, 4);
    }
  });

  it("remission trial, Freireich et al. 1963, Blood 21:699: median 23 weeks against 8 (from memory)", () => {
    expect(quantileTime(productLimit(weeks("6-MP")), 0.5).estimate).toEqual({ value: 23 });
    expect(quantileTime(productLimit(weeks("placebo")), 0.5).estimate).toEqual({ value: 8 });
  });
});
