import { describe, expect, it } from "vitest";
import {
  describe as describeValues,
  type MeanDifference,
  pairedMeanChange,
  standardisedDifference,
  standardisedDifferenceOfShares,
  welch,
  wilson,
} from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const table = (file: string) => referenceRows("continuous", file);
const sleep = table("sleep.csv");
const membrane = table("membrane.csv");
const ozone = table("ozone_ties.csv");
const groupOf = (rows: typeof sleep, column: string, word: string, value: string): number[] =>
  numbers(
    rows.filter((row) => row[column] === word),
    value,
  );

function expectDifference(found: MeanDifference, expected: Expected): void {
  expectClose(found.t, expected.t, { rel, what: "t" });
  expectClose(found.df, expected.df, { rel, what: "df" });
  expectClose(found.p, expected.p, { rel, what: "p" });
  expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
}

describe("means of two groups against R 4.2.2", () => {
  it.each([
    {
      source: "sleep data, Student 1908, Biometrika 6:1",
      id: "sleep_independent",
      a: numbers(sleep, "drug1"),
      b: numbers(sleep, "drug2"),
    },
    {
      source: "membrane permeability, Hollander & Wolfe 1973, p. 69",
      id: "membrane_means",
      a: groupOf(membrane, "group", "term", "value"),
      b: groupOf(membrane, "group", "early", "value"),
    },
    {
      source: "New York ozone 1973, Chambers et al. 1983, Graphical Methods for Data Analysis",
      id: "ozone_means",
      a: groupOf(ozone, "month", "5", "ozone"),
      b: groupOf(ozone, "month", "8", "ozone"),
    },
  ])("$source", ({ id, a, b }) => {
    const { expected } = referenceCase("continuous", id);
    const found = welch(a, b);
    expectClose(found.difference, expected.difference, { rel, what: "difference" });
    expectClose(found.standardError, expected.welch.se, { rel, what: "error" });
    expectDifference(found, expected.welch);
    [a, b].forEach((values, side) => {
      const own = describeValues(values);
      expect(own.n).toBe(expected.n[side]);
      expectClose(own.mean, expected.mean[side], { rel, what: "mean" });
      expectClose(own.standardDeviation, expected.sd[side], { rel, what: "sd" });
      expectClose(own.median, expected.median[side], { rel, what: "median" });
    });
    // d with the mean of the two variances, from the figures above
    const [first, second] = expected.sd as [number, number];
    const d = expected.difference / Math.sqrt((first ** 2 + second ** 2) / 2);
    expectClose(standardisedDifference(a, b).value, d, { rel, what: "standardised difference" });
  });

  it("sleep data, as printed: t = -1.8608, df = 17.776, p = 0.07939 (R documentation, from memory)", () => {
    const found = welch(numbers(sleep, "drug1"), numbers(sleep, "drug2"));
    expect(found.t).toBeCloseTo(-1.8608, 4);
    expect(found.df).toBeCloseTo(17.776, 3);
    expect(found.p).toBeCloseTo(0.07939, 5);
  });
});

describe("paired changes against R 4.2.2", () => {
  it.each([
    {
      source: "sleep data, Student 1908, Biometrika 6:1",
      id: "sleep_paired",
      file: "sleep.csv",
      after: "drug1",
      before: "drug2",
    },
    {
      source: "depression scores, Hollander & Wolfe 1973, p. 29",
      id: "depression_paired",
      file: "depression_scores.csv",
      after: "first",
      before: "second",
    },
    {
      source: "made up, with ties and zeros",
      id: "paired_ties_zeros",
      file: "paired_ties_zeros.csv",
      after: "after",
      before: "before",
    },
  ])("$source", ({ id, file, after, before }) => {
    const { expected } = referenceCase("continuous", id);
    const found = pairedMeanChange({
      before: numbers(table(file), before),
      after: numbers(table(file), after),
    });
    expectClose(found.difference, expected.mean_difference, { rel, what: "change" });
    expectDifference(found, expected);
  });
});

describe("one sample against the NIST Statistical Reference Datasets, certified values", () => {
  it.each(["NumAcc1", "NumAcc4", "Lew", "Mavro", "Michelso"])("%s: mean and standard deviation", (id) => {
    const { expected, tolerance } = referenceCase("nist", id);
    const found = describeValues(numbers(referenceRows("nist", `${id}.csv`), "y"));
    expectClose(found.mean, expected.from_doubles.mean, { rel: 1e-14, what: "mean" });
    expectClose(found.standardDeviation, expected.from_doubles.sd, { rel: tolerance.rel, what: "sd" });
  });
});

describe("proportions", () => {
  it("Wilson's interval, Newcombe 1998, Stat Med 17:857, and made-up edges", () => {
    for (const row of referenceCase("proportions", "single_proportions").expected) {
      const found = wilson(row.x, row.n);
      expectClose(found.estimate, row.estimate, { rel, what: `${row.x} of ${row.n}` });
      expectAllClose([found.lower, found.upper], row.wilson, { rel, what: `${row.x} of ${row.n}` });
    }
  });

  it("standardised difference of two shares, 0.4 and 0.3 by hand: 0.1 / sqrt((0.24 + 0.21) / 2)", () => {
    const found = standardisedDifferenceOfShares([40, 60], [15, 35]);
    expectClose(found.value, 0.1 / Math.sqrt(0.225), { rel: 1e-12, what: "shares" });
  });

  it("standardised difference of three shares by hand, Yang & Dalton 2012: any two categories give the same", () => {
    // shares 0.5 0.3 0.2 against 0.4 0.4 0.2; S over the last two = [0.225 -0.07; -0.07 0.16]; difference (-0.1, 0)
    const wanted = Math.sqrt((0.01 * 0.16) / (0.225 * 0.16 - 0.0049));
    expectClose(standardisedDifferenceOfShares([5, 3, 2], [4, 4, 2]).value, wanted, {
      rel: 1e-12,
      what: "in order",
    });
    expectClose(standardisedDifferenceOfShares([2, 5, 3], [2, 4, 4]).value, wanted, {
      rel: 1e-12,
      what: "turned",
    });
  });
});
