import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { mixedRegression } from "../../../../../src/statistics/regression/mixed/index.js";
import {
  codes,
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceRows,
} from "../../reference-data.js";

const { cases } = JSON.parse(
  readFileSync(new URL("../../../data/mixed_slope/expected.json", import.meta.url), "utf8"),
) as { cases: Expected[] };
const wantedOf = (id: string): Expected => cases.find((one: Expected) => one.id === id);

const sleepers = referenceRows("mixed_slope", "sleepstudy.csv");
const children = referenceRows("mixed_slope", "orthodont.csv");
const subjects = [...new Set(children.map((row) => row.subject!))].sort();
const age = numbers(children, "age");
const female = children.map((row) => (row.sex === "Female" ? 1 : 0));

const made = (file: string) => {
  const rows = referenceRows("mixed_slope", file);
  const [t, x] = [numbers(rows, "t"), numbers(rows, "x")];
  return {
    response: numbers(rows, "y"),
    groups: numbers(rows, "group"),
    slope: t,
    covariates: { names: ["t", "x"], columns: [t, x] },
  };
};

const designs = [
  {
    id: "sleepstudy",
    status: "ok",
    together: ["days"],
    columns: {
      response: numbers(sleepers, "reaction"),
      groups: numbers(sleepers, "subject"),
      slope: numbers(sleepers, "days"),
      covariates: { names: ["days"], columns: [numbers(sleepers, "days")] },
    },
  },
  {
    id: "orthodont",
    status: "ok",
    together: ["age_c", "female", "age_c:female"],
    columns: {
      response: numbers(children, "distance"),
      groups: codes(children, "subject", subjects),
      slope: age,
      covariates: {
        names: ["age_c", "female", "age_c:female"],
        columns: [
          age.map((value) => value - 11),
          female,
          age.map((value, row) => (value - 11) * female[row]!),
        ],
      },
    },
  },
  { id: "interior", status: "ok", together: ["t", "x"], columns: made("interior.csv") },
  { id: "boundary", status: "boundary", together: ["t", "x"], columns: made("boundary.csv") },
];

const componentsOf = ({ components }: ReturnType<typeof mixedRegression>) => [
  components.interceptDeviation.estimate,
  components.slopeDeviation?.estimate ?? null,
  components.correlation?.estimate ?? null,
  components.residualDeviation.estimate,
];
const inOrder = (by: Expected): number[] => [by.intercept, by.slope, by.correlation, by.residual];

// the reference's optimiser leaves its variances good to about 1e-6, and degrees of freedom to 1e-5 of that size
const rel = 1e-5;

describe("random intercept and slope against R packages lme4 1.1.31, lmerTest 3.1.3, pbkrtest 0.5.2", () => {
  it.each(designs)(
    "$id: effects, Kenward-Roger, Satterthwaite, joint tests, components, predictions",
    ({ id, status, together, columns }) => {
      const wanted = wantedOf(id);
      const fit = mixedRegression(columns, { together: [together], varianceIntervals: "none" });
      expect(fit.status).toBe(status);
      // log-likelihoods are flat at their maximum and so agree much further
      expectClose(fit.logLikelihood, wanted.log_likelihood, { rel: 1e-10, what: "log-likelihood" });
      expectClose(fit.varianceTest.logLikelihoodWithout, wanted.log_likelihood_without_slope, {
        rel: 1e-10,
        what: "without",
      });
      expectAllClose(fit.coefficients, wanted.coef, { rel, what: "coefficients" });
      expectAllClose(componentsOf(fit), inOrder(wanted.components), { rel, what: "components" });
      expectAllClose(fit.standardErrors, wanted.kenward_roger_se, { rel, what: "adjusted errors" });
      expectAllClose(
        fit.terms.map((term) => term.df),
        wanted.kenward_roger_df,
        { rel, what: "Kenward-Roger" },
      );
      expectAllClose(
        fit.terms.map((term) => term.p),
        wanted.kenward_roger_p,
        { rel: 1e-4, what: "p" },
      );
      const [joint] = fit.jointTests;
      expectAllClose(
        [joint?.f ?? null, joint?.denominatorDf ?? null],
        [wanted.joint_kr.f, wanted.joint_kr.df],
        { rel, what: "joint" },
      );
      expectClose(joint?.p, wanted.joint_kr.p, { rel: 1e-4, what: "joint p" });
      const scale = fit.components.interceptDeviation.estimate!;
      expectAllClose(
        fit.predictions.map((one) => one.intercept),
        wanted.predictions.intercept,
        { rel, abs: rel * scale, what: "intercepts" },
      );
      expectAllClose(
        fit.predictions.map((one) => one.slope),
        wanted.predictions.slope,
        { rel, abs: rel * scale, what: "slopes" },
      );

      const other = mixedRegression(columns, {
        inference: "satterthwaite",
        together: [together],
        varianceIntervals: "none",
      });
      expectAllClose(other.standardErrors, wanted.se, { rel, what: "errors" });
      expectAllClose(
        other.terms.map((term) => term.df),
        wanted.satterthwaite_df,
        { rel: 1e-4, what: "Satterthwaite" },
      );
      const [second] = other.jointTests;
      expectAllClose(
        [second?.f ?? null, second?.denominatorDf ?? null],
        [wanted.joint_satterthwaite.f, wanted.joint_satterthwaite.df],
        { rel: 1e-4, what: "joint" },
      );

      const ml = mixedRegression(columns, { method: "ml", varianceIntervals: "none" });
      expectClose(ml.logLikelihood, wanted.log_likelihood_ml, { rel: 1e-10, what: "ml" });
      expectAllClose(componentsOf(ml), inOrder(wanted.components_ml), { rel, what: "ml components" });
    },
  );

  it("sleepstudy: profile limits of the variance components, by direct minimisation of the deviance in R", () => {
    const [design] = designs;
    const wanted = wantedOf("sleepstudy").profile_ml;
    const { components } = mixedRegression(design!.columns, { method: "ml" });
    const limits = [
      components.interceptDeviation,
      components.slopeDeviation,
      components.correlation,
      components.residualDeviation,
    ].flatMap((one) => [one?.lower ?? null, one?.upper ?? null]);
    expectAllClose(limits, [wanted.intercept, wanted.slope, wanted.correlation, wanted.residual].flat(2), {
      rel,
      what: "limits",
    });
  });
});
