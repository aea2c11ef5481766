import { describe, expect, it } from "vitest";
import { type GrayTest, grayTest } from "../../../../src/statistics/competing/index.js";
import { cumulativeIncidence, incidenceAt } from "../../../../src/statistics/index.js";
import {
  codes,
  type Expected,
  expectClose,
  numbers,
  type Row,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const bmt = referenceRows("competing", "bmt.csv");
const melanoma = referenceRows("competing", "melanoma.csv");
const cohort = referenceRows("synthetic_cohort", "cohort.csv");
const stages = ["ALL", "AML-low", "AML-high"];
const treatments = ["tape", "ring", "surgery"];

const sets = [
  {
    source: "bone marrow transplant, Klein & Moeschberger 2003, Survival Analysis",
    rows: bmt,
    names: { time: "t_dfs", cause: "cause", group: "group" },
    words: stages,
    expected: referenceCase("competing", "bmt_by_group").expected,
  },
  {
    source: "melanoma, Andersen et al. 1993, Statistical Models Based on Counting Processes",
    rows: melanoma,
    names: { time: "time", cause: "cause", group: "ulcer" },
    words: ["0", "1"],
    expected: referenceCase("competing", "melanoma_by_ulcer").expected,
  },
  {
    source: "2,000 invented injuries by treatment",
    rows: cohort,
    names: { time: "days", cause: "outcome", group: "treatment" },
    words: treatments,
    expected: referenceCase("synthetic_cohort", "competing").expected.by_treatment,
  },
] as const;

function expectTest(found: GrayTest, expected: Expected): void {
  // made of sums over hundreds of times: the reference's own tolerance
  expectClose(found.chiSquare, expected.chisq, { rel: 1e-9, what: "chi-square" });
  expect(found.df).toBe(expected.df);
  expectClose(found.p, expected.p, { rel: 1e-8, what: "p" });
}

describe.each(sets)("$source", ({ rows, names, words, expected }) => {
  it.each([1, 2])("Gray's test of event %i against R package cmprsk 2.2.11", (cause) => {
    const columns = {
      times: numbers(rows as Row[], names.time),
      causes: numbers(rows as Row[], names.cause),
      groups: codes(rows as Row[], names.group, words as readonly string[]),
    };
    expectTest(grayTest(columns, { cause }), expected.gray_test[`cause_${cause}`]);
  });

  it.each([...words])("Aalen's standard error of the incidence in group %s (cmprsk 2.2.11)", (word) => {
    const own = (rows as Row[]).filter((row) => row[names.group] === word);
    const curves = cumulativeIncidence(
      { times: numbers(own, names.time), causes: numbers(own, names.cause) },
      { variance: "aalen" },
    );
    const wanted = expected.groups[word].at_times;
    for (const cause of [1, 2])
      wanted.time.forEach((time: number, k: number) => {
        const error = wanted[`cause_${cause}`].se_aalen[k];
        const found = incidenceAt(curves, { time, cause });
        if (error === null || found.reason !== null) return;
        expectClose(found.standardError, error, { rel: 1e-9, what: `event ${cause} at ${time}` });
      });
  });
});

describe("Gray's test against R package cmprsk 2.2.11, made-up data with heavy ties", () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])("set %i: both events, weighted, with and without strata", (number) => {
    const { expected, data } = referenceCase("competing_ties", `tied_${number}`) as never as {
      expected: Expected;
      data: Record<string, number[]>;
    };
    const columns = { times: data.time!, causes: data.cause!, groups: data.group! };
    for (const cause of [1, 2]) {
      const options = { cause, rho: expected.rho };
      const what = `event ${cause}`;
      const plain = grayTest(columns, options);
      expectClose(plain.chiSquare, expected.gray[cause - 1], { rel: 1e-9, what });
      const stratified = grayTest({ ...columns, strata: data.stratum! }, options);
      expectClose(stratified.chiSquare, expected.gray_strata[cause - 1], { rel: 1e-9, what });
    }
  });
});
