import { describe, it } from "vitest";
import {
  type IntraclassForm,
  intraclassCorrelation,
  measurementError,
  raterComponents,
  repeatability,
} from "../../../../src/statistics/agreement/index.js";
import { chiSquareQuantile } from "../../../../src/statistics/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

const rel = 1e-9;
const columnsOf = (file: string, names: readonly string[]) => {
  const rows = referenceRows("agreement", file);
  return names.map((name) => numbers(rows, name));
};

const cases = [
  { id: "shrout_fleiss", file: "shrout_fleiss.csv", names: ["rater1", "rater2", "rater3", "rater4"] },
  { id: "peak_flow_wright_replicates", file: "peak_flow.csv", names: ["wright1", "wright2"] },
  { id: "peak_flow_mini_replicates", file: "peak_flow.csv", names: ["mini1", "mini2"] },
];

describe("six forms of the intraclass correlation against R 4.2.2 and R package psych 2.2.9", () => {
  it.each(cases)("$id: estimates, limits, F tests, errors of measurement", ({ id, file, names }) => {
    const { expected } = referenceCase("agreement", id);
    const raters = columnsOf(file, names);
    const found = intraclassCorrelation({ raters });
    expectClose(found.subjects, expected.subjects, { rel, what: "subjects" });
    const squares = expected.mean_squares;
    expectClose(found.meanSquares?.betweenSubjects, squares.between_subjects, { rel, what: "B" });
    expectClose(found.meanSquares?.withinSubjects, squares.within_subjects, { rel, what: "W" });
    expectClose(found.meanSquares?.betweenRaters, squares.between_raters, { rel, what: "J" });
    expectClose(found.meanSquares?.residual, squares.residual, { rel, what: "E" });
    const forms = [
      [found.oneWay.single, "icc_1_1"],
      [found.agreement.single, "icc_2_1"],
      [found.consistency.single, "icc_3_1"],
      [found.oneWay.average, "icc_1_k"],
      [found.agreement.average, "icc_2_k"],
      [found.consistency.average, "icc_3_k"],
    ] as const;
    for (const [form, key] of forms) expectForm(form, expected[key], key);
    const error = measurementError({ raters });
    for (const kind of ["consistency", "agreement", "one_way"] as const) {
      const ours = error[kind === "one_way" ? "oneWay" : kind];
      expectClose(ours?.sem, expected.sem[kind], { rel, what: `sem ${kind}` });
      const change = expected.minimal_detectable_change95[kind];
      expectClose(ours?.minimalDetectableChange, change, { rel, what: `change ${kind}` });
    }
    const older = "sd_times_root_1_minus_icc2";
    expectClose(error.fromTotalDeviation?.sem, expected.sem[older], { rel, what: older });
    const change = expected.minimal_detectable_change95[older];
    expectClose(error.fromTotalDeviation?.minimalDetectableChange, change, { rel, what: older });
  });

  it("Shrout & Fleiss 1979, Table 4 (from memory): .17 .29 .71 .44 .62 .91", () => {
    const found = intraclassCorrelation({ raters: columnsOf("shrout_fleiss.csv", cases[0]!.names) });
    const estimates = [found.oneWay, found.agreement, found.consistency].flatMap(({ single, average }) => [
      single.estimate,
      average.estimate,
    ]);
    expectAllClose(estimates, [0.17, 0.44, 0.29, 0.62, 0.71, 0.91], { rel: 0, abs: 0.005, what: "printed" });
  });

  it("Satterthwaite's degrees of freedom of the agreement form, by hand from J 32.486, E 1.0194, 6 subjects, 4 raters", () => {
    const { agreement } = measurementError({ raters: columnsOf("shrout_fleiss.csv", cases[0]!.names) });
    const [j, e] = [32.486111111111114, 1.0194444444444437];
    const df = (j / 6 + (5 * e) / 6) ** 2 / ((j / 6) ** 2 / 3 + ((5 * e) / 6) ** 2 / 15);
    expectClose(agreement?.df, df, { rel, what: "df" });
    // df s^2 over the lower point of chi-square
    const upper = Math.sqrt((df * 2.502776236280201 ** 2) / chiSquareQuantile(0.025, df));
    expectClose(agreement?.semUpper, upper, { rel, what: "upper limit" });
  });

  it("tests against 0.3 by the formulas of McGraw & Wong 1996, written out in R", () => {
    const { expected } = referenceCase("agreement_more", "icc_against");
    const raters = columnsOf("shrout_fleiss.csv", cases[0]!.names);
    const found = intraclassCorrelation({ raters }, { against: 0.3 });
    const forms = [
      [found.oneWay.single, "one_way"],
      [found.oneWay.average, "one_way_average"],
      [found.consistency.single, "consistency"],
      [found.agreement.single, "agreement"],
      [found.agreement.average, "agreement_average"],
    ] as const;
    for (const [form, key] of forms) {
      expectClose(form.f, expected[key].f, { rel, what: `${key} F` });
      expectClose(form.p, expected[key].p, { rel, what: `${key} p` });
      if (expected[key].df2 !== undefined)
        expectClose(form.df2, expected[key].df2, { rel, what: `${key} df` });
    }
  });
});

function expectForm(form: IntraclassForm, expected: Expected, key: string): void {
  expectClose(form.estimate, expected.estimate, { rel, what: `${key} estimate` });
  expectAllClose([form.lower, form.upper], expected.ci95, { rel, what: `${key} limits` });
  expectClose(form.f, expected.f, { rel, what: `${key} F` });
  expectAllClose([form.df1, form.df2], [expected.df1, expected.df2], { rel, what: `${key} df` });
  expectClose(form.p, expected.p, { rel, what: `${key} p` });
}

describe("repeatability", () => {
  it.each(["wright", "mini"])(
    "peak flow, Bland & Altman 1986, Lancet 1:307, against R 4.2.2: %s",
    (meter) => {
      const expected = referenceCase("agreement", "peak_flow_repeatability").expected[meter];
      const [first, second] = columnsOf("peak_flow.csv", [`${meter}1`, `${meter}2`]) as [number[], number[]];
      const columns = {
        values: [...first, ...second],
        subjects: [...first, ...second].map((_, at) => at % 17),
      };
      const found = repeatability(columns);
      expectClose(found.withinSubjectDeviation, expected.within_subject_sd, { rel, what: "s" });
      expectClose(found.standardError, expected.se_within_subject_sd, { rel, what: "se of s" });
      expectClose(found.coefficient, expected["repeatability_1.96_root2_sw"], { rel, what: "coefficient" });
      const doubled = repeatability(columns, { multiplier: 2 });
      expectClose(doubled.coefficient, expected.repeatability_2_rms, { rel, what: "coefficient with 2" });
    },
  );
});

describe("variance components by restricted likelihood against R package lme4 1.1.31 (iterative there, 1e-6)", () => {
  const rows = referenceRows("agreement_more", "unbalanced_raters.csv");
  const columns = {
    values: numbers(rows, "value"),
    subjects: numbers(rows, "subject"),
    raters: numbers(rows, "rater"),
  };
  const loose = 1e-6;

  it("two-way, missing and repeated readings", () => {
    const { expected } = referenceCase("agreement_more", "components_two_way");
    const found = raterComponents(columns);
    for (const part of ["subjects", "raters", "residual"] as const) {
      expectClose(found.variances?.[part], expected.variances[part], { rel: loose, what: part });
      expectClose(found.standardErrors?.[part], expected.standard_errors[part], {
        rel: loose,
        what: `se ${part}`,
      });
    }
    expectClose(found.agreement.estimate, expected.agreement, { rel: loose, what: "agreement" });
    expectClose(found.agreement.standardError, expected.se_agreement, { rel: loose, what: "its error" });
    expectClose(found.consistency.estimate, expected.consistency, { rel: loose, what: "consistency" });
    expectClose(found.agreementError?.sem, expected.sem_agreement, { rel: loose, what: "sem" });
    expectClose(found.agreementError?.df, expected.df_agreement, { rel: loose, what: "df of sem" });
    const minusTwo = found.logLikelihood === null ? null : -2 * found.logLikelihood;
    expectClose(minusTwo, expected.minus_two_log_likelihood, { rel, what: "-2 log likelihood" });
    expectClose(found.mean, 2.933459, { rel: loose, what: "mean" });
  });

  it("one-way", () => {
    const { expected } = referenceCase("agreement_more", "components_one_way");
    const found = raterComponents(columns, { model: "one-way" });
    for (const part of ["subjects", "residual"] as const) {
      expectClose(found.variances?.[part], expected.variances[part], { rel: loose, what: part });
      expectClose(found.standardErrors?.[part], expected.standard_errors[part], {
        rel: loose,
        what: `se ${part}`,
      });
    }
    const minusTwo = found.logLikelihood === null ? null : -2 * found.logLikelihood;
    expectClose(minusTwo, expected.minus_two_log_likelihood, { rel, what: "-2 log likelihood" });
  });
});
