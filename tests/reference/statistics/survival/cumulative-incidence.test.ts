import { describe, expect, it } from "vitest";
import { cumulativeIncidence, incidenceAt, productLimit, shareAt } from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const bmt = referenceRows("competing", "bmt.csv");
const melanoma = referenceRows("competing", "melanoma.csv");
const rel = 1e-9;

interface Question {
  readonly rows: readonly Row[];
  readonly time: string;
  readonly expected: Expected;
}

function expectCurves({ rows, time, expected }: Question): void {
  const curves = cumulativeIncidence({ times: numbers(rows, time), causes: numbers(rows, "cause") });
  expect(curves.n).toBe(expected.n);
  expected.curve.time.forEach((one: number, k: number) => {
    const at = curves.times.indexOf(one);
    expectClose(curves.atRisk[at], expected.curve.at_risk[k], { rel, what: `at risk at ${one}` });
    expectClose(curves.eventFree[at], expected.curve.event_free[k], { rel, what: `event-free at ${one}` });
    for (const own of curves.causes) {
      const wanted = expected.curve.cause[`cause_${own.cause}`];
      const what = `cause ${own.cause} at ${one}`;
      expectClose(own.events[at], wanted.events[k], { rel, what });
      expectClose(own.incidence[at], wanted.cumulative_incidence[k], { rel, what });
      // a difference of terms near 0 at the first times: an absolute slack of 1e-10 on a share
      expectClose(own.standardError[at], wanted.se_delta[k], { rel, abs: 1e-10, what });
    }
  });
  for (const [k, one] of (expected.at_times.time as number[]).entries())
    for (const cause of [1, 2]) {
      const wanted = expected.at_times[`cause_${cause}`];
      const found = incidenceAt(curves, { time: one, cause });
      const what = `cause ${cause} at ${one}`;
      expectClose(found.atRisk, expected.at_times.at_risk[k], { rel, what });
      if (found.reason !== null) {
        expect(one).toBeGreaterThan(curves.lastTime!);
        continue;
      }
      expectClose(found.incidence, wanted.cumulative_incidence[k], { rel, what });
      expectClose(found.standardError, wanted.se_delta[k], { rel, what });
      expectClose(found.lower, wanted.ci95_loglog_from_se_delta.lower[k], { rel, what: `${what} lower` });
      expectClose(found.upper, wanted.ci95_loglog_from_se_delta.upper[k], { rel, what: `${what} upper` });
    }
}

describe("cumulative incidence against the formulas written out, R packages survival 3.5.3 and cmprsk 2.2.11", () => {
  const transplant = "bone marrow transplant, Klein & Moeschberger 2003, Survival Analysis";
  const cancer = "melanoma, Andersen et al. 1993, Statistical Models Based on Counting Processes";

  it(`${transplant}: all`, () => {
    expectCurves({ rows: bmt, time: "t_dfs", expected: referenceCase("competing", "bmt_overall").expected });
  });

  it(`${cancer}: all`, () => {
    expectCurves({
      rows: melanoma,
      time: "time",
      expected: referenceCase("competing", "melanoma_overall").expected,
    });
  });

  it.each(["ALL", "AML-low", "AML-high"])(`${transplant}: group %s`, (group) => {
    const { expected } = referenceCase("competing", "bmt_by_group");
    expectCurves({
      rows: bmt.filter((row) => row.group === group),
      time: "t_dfs",
      expected: expected.groups[group],
    });
  });

  it.each(["0", "1"])(`${cancer}: ulceration %s`, (ulcer) => {
    const { expected } = referenceCase("competing", "melanoma_by_ulcer");
    expectCurves({
      rows: melanoma.filter((row) => row.ulcer === ulcer),
      time: "time",
      expected: expected.groups[ulcer],
    });
  });

  it(`${transplant}: counting deaths as censored would say more relapse at every time`, () => {
    const { expected } = referenceCase("competing", "bmt_one_minus_km");
    const times = numbers(bmt, "t_dfs");
    const causes = numbers(bmt, "cause");
    const wrong = productLimit({ times, events: causes.map((cause) => (cause === 1 ? 1 : 0)) });
    const right = cumulativeIncidence({ times, causes });
    expected.time.forEach((time: number, k: number) => {
      const said = shareAt(wrong, time).returned!;
      expectClose(said, expected.one_minus_km[k], { rel, what: `1 - product-limit at ${time}` });
      expect(said).toBeGreaterThan(incidenceAt(right, { time, cause: 1 }).incidence!);
    });
  });
});
