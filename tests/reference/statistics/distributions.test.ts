import { describe, it } from "vitest";
import {
  chiSquareQuantile,
  chiSquareUpperTail,
  fQuantile,
  fUpperTail,
  normalQuantile,
  normalTwoSided,
  normalUpperTail,
  tQuantile,
  tTwoSided,
  tUpperTail,
} from "../../../src/statistics/index.js";
import { expectAllClose, expectClose, referenceCase } from "./reference-data.js";

const caseOf = (id: string) => referenceCase("distributions", id);
// tails are compared on their own scale, however small: no absolute slack
const rel = 1e-12;

describe("distribution functions against R 4.2.2, each checked with 40-digit arithmetic", () => {
  it("normal: upper and two-sided tail, quantile, down to 1e-300", () => {
    const { expected } = caseOf("normal");
    expected.x.forEach((x: number, at: number) => {
      expectClose(normalUpperTail(x), expected.upper[at], { rel, abs: 0, what: `upper tail of ${x}` });
      const smaller = Math.min(expected.upper[at], expected.lower[at]);
      expectClose(normalTwoSided(x), 2 * smaller, { rel, abs: 0, what: `two-sided ${x}` });
    });
    expected.p.forEach((p: number, at: number) => {
      expectClose(normalQuantile(p), expected.quantile_lower[at], { rel, abs: 1e-15, what: `quantile ${p}` });
    });
  });

  it("Student's t: tails", () => {
    const { expected } = caseOf("student_t");
    expected.x.forEach((x: number, at: number) => {
      const df = expected.df[at];
      expectClose(tUpperTail(x, df), expected.upper[at], { rel: 1e-11, abs: 0, what: `t ${x}, ${df} df` });
      const smaller = Math.min(expected.upper[at], expected.lower[at]);
      expectClose(tTwoSided(x, df), 2 * smaller, { rel: 1e-11, abs: 0, what: `two-sided ${x}, ${df} df` });
    });
  });

  it("Student's t: quantiles", () => {
    const { expected } = caseOf("student_t_quantile");
    const found = expected.p.map((p: number, at: number) => tQuantile(p, expected.df[at]));
    expectAllClose(found, expected.quantile, { rel: 1e-9, what: "t quantile" });
  });

  it("chi-square: upper tails and quantiles", () => {
    const tails = caseOf("chi_square").expected;
    tails.x.forEach((x: number, at: number) => {
      const what = `${x}, ${tails.df[at]} df`;
      expectClose(chiSquareUpperTail(x, tails.df[at]), tails.upper[at], { rel: 1e-11, abs: 0, what });
    });
    const { expected } = caseOf("chi_square_quantile");
    const found = expected.p.map((p: number, at: number) => chiSquareQuantile(p, expected.df[at]));
    expectAllClose(found, expected.quantile, { rel: 1e-9, abs: 0, what: "chi-square quantile" });
  });

  it("F: upper tails and quantiles", () => {
    const tails = caseOf("f").expected;
    tails.x.forEach((x: number, at: number) => {
      const df = { numerator: tails.df1[at], denominator: tails.df2[at] };
      const what = `${x}, ${df.numerator} and ${df.denominator} df`;
      expectClose(fUpperTail(x, df), tails.upper[at], { rel: 1e-11, abs: 0, what });
    });
    const { expected } = caseOf("f_quantile");
    const found = expected.p.map((p: number, at: number) =>
      fQuantile(p, { numerator: expected.df1[at], denominator: expected.df2[at] }),
    );
    expectAllClose(found, expected.quantile, { rel: 1e-9, abs: 0, what: "F quantile" });
  });
});
