// biome-ignore-all lint/correctness/noPrecisionLoss: the digits stand as the reference printed them, more than a double holds
import { describe, expect, it } from "vitest";
import {
  noncentralTTails,
  rankSumDistribution,
  signedRankDistribution,
} from "../../../src/statistics/continuous/index.js";
import {
  binomialDensity,
  binomialLowerTail,
  binomialUpperTail,
} from "../../../src/statistics/shared/binomial.js";
import {
  betaLowerTail,
  betaQuantile,
  betaUpperTail,
  chiSquareLowerTail,
  fLowerTail,
  logGamma,
  normalDensity,
  normalLogLowerTail,
  normalLowerTail,
  tLowerTail,
} from "../../../src/statistics/shared/distributions.js";
import { expectAllClose, expectClose, referenceCase } from "./reference-data.js";

const caseOf = (id: string) => referenceCase("distributions", id).expected;
// probabilities are compared on their own scale, however small
const close = (what: string, rel = 1e-12) => ({ rel, abs: 0, what });

describe("lower tails, beta, binomial and ranks against R 4.2.2, each checked with 40-digit arithmetic", () => {
  it("normal: density, lower tail and its logarithm", () => {
    const expected = caseOf("normal");
    expected.x.forEach((x: number, at: number) => {
      expectClose(normalDensity(x), expected.density[at], close(`density ${x}`));
      expectClose(normalLowerTail(x), expected.lower[at], close(`lower ${x}`));
      expectClose(normalLogLowerTail(x), expected.log_lower[at], close(`log lower ${x}`));
    });
  });

  it("Student's t, chi-square and F: lower tails", () => {
    const t = caseOf("student_t");
    t.x.forEach((x: number, at: number) => {
      expectClose(tLowerTail(x, t.df[at]), t.lower[at], close(`t ${x}, ${t.df[at]} df`, 1e-11));
    });
    const square = caseOf("chi_square");
    square.x.forEach((x: number, at: number) => {
      // below 1e-308 a number has lost its digits
      const how = { rel: 1e-11, abs: 1e-308, what: `chi-square ${x}, ${square.df[at]} df` };
      expectClose(chiSquareLowerTail(x, square.df[at]), square.lower[at], how);
    });
    const f = caseOf("f");
    f.x.forEach((x: number, at: number) => {
      const df = { numerator: f.df1[at], denominator: f.df2[at] };
      expectClose(
        fLowerTail(x, df),
        f.lower[at],
        close(`F ${x}, ${df.numerator} and ${df.denominator} df`, 1e-11),
      );
    });
  });

  it("beta: both tails and quantiles", () => {
    const tails = caseOf("beta");
    tails.x.forEach((x: number, at: number) => {
      const shape = { a: tails.a[at], b: tails.b[at] };
      expectClose(
        betaLowerTail(x, shape),
        tails.lower[at],
        close(`lower ${x}, ${shape.a}, ${shape.b}`, 1e-11),
      );
      expectClose(
        betaUpperTail(x, shape),
        tails.upper[at],
        close(`upper ${x}, ${shape.a}, ${shape.b}`, 1e-11),
      );
    });
    const { p, a, b, quantile } = caseOf("beta_quantile");
    const found = p.map((share: number, at: number) => betaQuantile(share, { a: a[at], b: b[at] }));
    expectAllClose(found, quantile, close("quantile", 1e-9));
  });

  it("log gamma", () => {
    const { x, log_gamma } = caseOf("log_gamma");
    expectAllClose(x.map(logGamma), log_gamma, { rel: 1e-13, what: "log gamma" });
  });

  it("binomial: density and lower tail", () => {
    const { k, n, p, density, lower } = caseOf("binomial");
    k.forEach((count: number, at: number) => {
      const of = { n: n[at], p: p[at] };
      expectClose(binomialDensity(count, of), density[at], close(`density ${count}, ${of.p}`));
      expectClose(binomialLowerTail(count, of), lower[at], close(`lower ${count}, ${of.p}`));
    });
  });

  it("rank sum of 5 and 7, signed ranks of 10", () => {
    const expected = caseOf("rank_distributions");
    expectAllClose(
      rankSumDistribution({ m: 5, n: 7 }),
      expected.rank_sum_counts_m5_n7_lower,
      close("rank sum"),
    );
    expectAllClose(signedRankDistribution(10), expected.signed_rank_n10_lower, close("signed ranks"));
  });
});

describe("large parameters, by continued fraction in 40-digit arithmetic (python mpmath 1.3)", () => {
  it.each([
    [0.3, 300000000.0, 700000000.0, 0.5000036706173999, 0.49999632938260014],
    [0.30001, 300000000.0, 700000000.0, 0.7549250351083917, 0.2450749648916083],
    [0.2999, 300000000.0, 700000000.0, 2.5803482231731023e-12, 0.9999999999974196],
    [0.5, 1000000000.0, 1000000005.0, 0.5000446031027644, 0.49995539689723556],
    [0.29, 300000.0, 700000.0, 3.163567603280825e-107, 1.0],
    [0.02, 10000.0, 490000.0, 0.5012895772514115, 0.49871042274858846],
    [0.98, 600, 20, 0.9731974876134828, 0.026802512386517176],
    [0.5, 700.5, 640, 0.049142976840899785, 0.9508570231591003],
  ])("beta tails at x = %d, a = %d, b = %d", (x, a, b, lower, upper) => {
    expectClose(betaLowerTail(x, { a, b }), lower, close("lower", 1e-10));
    expectClose(betaUpperTail(x, { a, b }), upper, close("upper", 1e-10));
    expectClose(betaQuantile(lower, { a, b }), x, close("quantile", 1e-12));
  });

  it("binomial of 1e9 draws at one half: exactly half below the middle but for the middle itself", () => {
    const of = { n: 1e9, p: 0.5 };
    const middle = binomialDensity(5e8, of);
    // Stirling: 1 / sqrt(pi n / 2), less a quarter of 1e-9 of it
    expectClose(middle, 1 / Math.sqrt(Math.PI * 5e8), close("middle", 1e-9));
    expectClose(binomialLowerTail(5e8, of), (1 + middle) / 2, close("lower", 1e-12));
    expectClose(binomialUpperTail(5e8, of), (1 - middle) / 2, close("upper", 1e-12));
  });
});

describe("Student's t with a shift", () => {
  it.each([
    [2, 5, 1, 0.7780746626162149, 0.2219253373837851],
    [-1.5, 3, 0.7, 0.03415147421853049, 0.9658485257814695],
    [8.2, 40, 6.5, 0.8887613400650066, 0.1112386599349934],
    [0.5, 1, 2, 0.0632768874799286, 0.9367231125192735],
    [7, 300, 9, 0.02690885493399058, 0.9730911450660094],
    [3, 18, 12, 9.206255448719913e-16, 0.9999999999999991],
  ])(
    "t = %d, %d df, shift %d, against numerical integration in 30-digit arithmetic (python mpmath 1.3)",
    (t, df, shift, lower, upper) => {
      const found = noncentralTTails(t, { df, shift });
      expectClose(found.lower, lower, close("lower", 1e-11));
      expectClose(found.upper, upper, close("upper", 1e-11));
    },
  );

  it("without a shift it is Student's t", () => {
    expect(noncentralTTails(-2.5, { df: 7, shift: 0 }).lower).toBeCloseTo(tLowerTail(-2.5, 7), 14);
  });
});
