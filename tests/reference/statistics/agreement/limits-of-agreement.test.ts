import { describe, expect, it } from "vitest";
import {
  concordanceCorrelation,
  limitsByMagnitude,
  limitsOfAgreement,
  limitsOfRepeatedPairs,
  limitsOfReplicates,
  proportionalBias,
} from "../../../../src/statistics/agreement/index.js";
import { expectAllClose, expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";

const rel = 1e-9;
const peakFlow = referenceRows("agreement", "peak_flow.csv");
const column = (name: string) => numbers(peakFlow, name);
const meanOf = (one: number[], two: number[]) => one.map((value, at) => (value + two[at]!) / 2);

const cases = [
  { id: "peak_flow_agreement", first: column("wright1"), second: column("mini1") },
  {
    id: "peak_flow_agreement_of_means",
    first: meanOf(column("wright1"), column("wright2")),
    second: meanOf(column("mini1"), column("mini2")),
  },
];

describe("limits of agreement, peak flow of Bland & Altman 1986, Lancet 1:307, against R 4.2.2", () => {
  it.each(cases)("$id: bias, limits, three kinds of intervals", ({ id, first, second }) => {
    const { expected } = referenceCase("agreement", id);
    const found = limitsOfAgreement({ first, second });
    const { lower, upper } = found;
    expectClose(found.bias, expected.bias, { rel, what: "bias" });
    expectClose(found.standardDeviation, expected.sd, { rel, what: "sd" });
    expectAllClose([found.biasLower, found.biasUpper], expected.ci95_bias, { rel, what: "bias limits" });
    expectAllClose([lower!.estimate, upper!.estimate], expected.limits, { rel, what: "limits" });
    expectClose(lower?.simple?.standardError, expected.se_limit_3s2n, { rel, what: "simple error" });
    expectClose(lower?.approximate?.standardError, expected.se_limit, { rel, what: "approximate error" });
    const kinds = [
      [lower?.simple, "ci95_lower_limit_3s2n", rel],
      [upper?.simple, "ci95_upper_limit_3s2n", rel],
      [lower?.approximate, "ci95_lower_limit", rel],
      [upper?.approximate, "ci95_upper_limit", rel],
      // the reference's non-central t is good to 1e-7
      [lower?.exact, "ci95_lower_limit_exact", 1e-6],
      [upper?.exact, "ci95_upper_limit_exact", 1e-6],
    ] as const;
    for (const [ours, key, tolerance] of kinds)
      expectAllClose([ours!.lower, ours!.upper], expected[key], { rel: tolerance, what: key });
    const doubled = limitsOfAgreement({ first, second }, { multiplier: 2 });
    const twice = [doubled.lower!.estimate, doubled.upper!.estimate];
    expectAllClose(twice, expected.limits_multiplier_2, { rel, what: "limits with 2" });
  });

  it.each(cases)("$id: slope on the magnitude, correlation, concordance", ({ id, first, second }) => {
    const { expected } = referenceCase("agreement", id);
    const line = proportionalBias({ first, second });
    expectClose(line.slope, expected.proportional_bias.slope, { rel, what: "slope" });
    expectClose(line.standardError, expected.proportional_bias.se, { rel, what: "its error" });
    expectClose(line.p, expected.proportional_bias.p, { rel, what: "p" });
    expectClose(line.correlation, expected.proportional_bias.correlation, { rel, what: "correlation" });
    const agreed = concordanceCorrelation({ first, second });
    expectClose(agreed.estimate, expected.lin_concordance, { rel, what: "concordance" });
    expectClose(agreed.correlation, expected.pearson, { rel, what: "product-moment correlation" });
  });

  it("one-sided tolerance factors of normal tables: 2.911 for n 10, 2.396 for n 20, 2.220 for n 30 (95 % content, 95 %)", () => {
    const factor = (n: number): number => {
      const first = Array.from({ length: n }, (_, at) => ((at * 7) % n) + 0.1 * at);
      const found = limitsOfAgreement(
        { first, second: new Float64Array(n) },
        { multiplier: 1.6448536269514722, level: 0.9 },
      );
      return (found.upper!.exact!.upper - found.bias!) / found.standardDeviation!;
    };
    expectAllClose([10, 20, 30].map(factor), [2.911, 2.396, 2.22], { rel: 0, abs: 5e-4, what: "factor" });
  });
});

describe("repeated readings: cardiac output, Bland & Altman 2007, J Biopharm Stat 17:571", () => {
  const rows = referenceRows("agreement_more", "cardiac_output.csv");
  const data = {
    first: numbers(rows, "first"),
    second: numbers(rows, "second"),
    subjects: numbers(rows, "subject"),
  };

  const pairs = { first: data.first, second: data.second };

  it("subjects ignored, the paper's figures (from public copies): SD 0.961, limits -1.28 to 2.49", () => {
    const found = limitsOfAgreement(pairs, { multiplier: 1.96 });
    expectClose(found.standardDeviation, 0.9610571, { rel: 0, abs: 5e-8, what: "sd" });
    expectClose(found.lower?.estimate, -1.2815052, { rel: 0, abs: 2e-7, what: "lower" });
    expectClose(found.upper?.estimate, 2.4858386, { rel: 0, abs: 2e-7, what: "upper" });
  });

  it("pairs read together, true value changing: analysis of variance in R 4.2.2; intervals by Zou 2013, Stat Methods Med Res 22:630", () => {
    const { expected } = referenceCase("agreement_more", "limits_repeated_pairs");
    const found = limitsOfRepeatedPairs(data);
    const { lower, upper } = found;
    expectClose(found.bias, expected.bias, { rel, what: "bias" });
    expectClose(found.variances.withinFirst, expected.within, { rel, what: "within" });
    expectClose(found.variances.between, expected.between, { rel, what: "between" });
    expectClose(found.standardDeviation, expected.sd, { rel, what: "sd" });
    expectAllClose([lower!.estimate, upper!.estimate], expected.limits, { rel, what: "limits" });
    expectClose(upper?.approximate?.standardError, expected.se_limit, { rel, what: "error of a limit" });
    const recovered = [lower!.recovered, upper!.recovered].flatMap((limit) => [limit!.lower, limit!.upper]);
    const both = [...expected.lower_recovered, ...expected.upper_recovered];
    expectAllClose(recovered, both, { rel, what: "recovered limits" });
  });

  it("subjects alike, by hand: differences -1, 1 in both of two; B 0, W 2, between -1, variance 1, bias 0 with variance 2 / 4", () => {
    const found = limitsOfRepeatedPairs({
      first: [0, 2, 4, 6],
      second: [1, 1, 5, 5],
      subjects: [1, 1, 2, 2],
    });
    expectAllClose(
      [found.variances.between, found.variances.withinFirst, found.standardDeviation, found.bias],
      [-1, 2, 1, 0],
      { rel, what: "figures" },
    );
    // Student's t with 1 degree of freedom: tan(0.475 pi) = 12.706
    expectClose(found.biasUpper, Math.tan(0.475 * Math.PI) * Math.sqrt(0.5), { rel, what: "bias limit" });
  });

  it("replicates of a constant value: variances in R 4.2.2", () => {
    const { expected } = referenceCase("agreement_more", "limits_replicates");
    const found = limitsOfReplicates({
      first: { values: data.first, subjects: data.subjects },
      second: { values: data.second, subjects: data.subjects },
    });
    expectClose(found.bias, expected.bias, { rel, what: "bias" });
    expectClose(found.variances.between, expected.between, { rel, what: "between" });
    expectClose(found.variances.withinFirst, expected.within_first, { rel, what: "within first" });
    expectClose(found.variances.withinSecond, expected.within_second, { rel, what: "within second" });
    expectClose(found.standardDeviation, expected.sd, { rel, what: "sd" });
  });

  it("blood pressure, Bland & Altman 1999, Stat Methods Med Res 8:135 (from memory): 358.493 + 2/3 (37.408 + 83.141) = 438.86, limits -56.68 and 25.44", () => {
    // 85 subjects, three readings by each method, rebuilt from the paper's variances
    const subjects = Array.from({ length: 85 }, (_, at) => at);
    const raw = subjects.map((at) => Math.sin(at * 12.9898) * 10);
    const mean = raw.reduce((sum, value) => sum + value, 0) / 85;
    const spread = Math.sqrt(raw.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 84);
    const means = raw.map((value) => -15.62 + ((value - mean) / spread) * Math.sqrt(358.493));
    const threeAround = (centres: readonly number[], variance: number) => ({
      values: centres.flatMap((centre) => [-1, 0, 1].map((step) => centre + step * Math.sqrt(variance))),
      subjects: subjects.flatMap((subject) => [subject, subject, subject]),
    });
    const found = limitsOfReplicates(
      {
        first: threeAround(means, 37.408),
        second: threeAround(
          means.map(() => 0),
          83.141,
        ),
      },
      { multiplier: 1.96 },
    );
    expectClose(found.standardDeviation! ** 2, 438.86, { rel: 0, abs: 0.005, what: "variance" });
    expectClose(found.lower?.estimate, -56.68, { rel: 0, abs: 0.006, what: "lower" });
    expectClose(found.upper?.estimate, 25.44, { rel: 0, abs: 0.006, what: "upper" });
  });

  it("limits that follow the magnitude, by two regressions in R 4.2.2", () => {
    const { expected } = referenceCase("agreement_more", "limits_by_magnitude");
    const sloping = limitsByMagnitude(pairs, { at: expected.at, spread: "with magnitude" });
    expectClose(sloping.bias.slope, expected.slope, { rel, what: "slope" });
    expectClose(sloping.bias.p, expected.p, { rel, what: "p" });
    expectClose(sloping.residualDeviation, expected.residual_sd, { rel, what: "residual sd" });
    expectAllClose(
      sloping.at.map(({ lower }) => lower),
      expected.lower,
      { rel, what: "lower" },
    );
    expectAllClose(
      sloping.at.map(({ upper }) => upper),
      expected.upper,
      { rel, what: "upper" },
    );
    const constant = limitsByMagnitude(pairs, { at: expected.at });
    expectAllClose(
      constant.at.map(({ lower }) => lower),
      expected.lower_constant,
      { rel, what: "constant" },
    );
  });

  it("concordance with its interval, corrected formula of Lin 2000, Biometrics 56:324, in R 4.2.2", () => {
    const { expected } = referenceCase("agreement_more", "concordance");
    const found = concordanceCorrelation(pairs);
    expectClose(found.estimate, expected.estimate, { rel, what: "estimate" });
    expectClose(found.standardError, expected.se, { rel, what: "error" });
    expectAllClose([found.lower, found.upper], expected.ci95, { rel, what: "limits" });
    expect(found.reason).toBeNull();
  });
});
