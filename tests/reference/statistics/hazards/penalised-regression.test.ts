import { describe, expect, it } from "vitest";
import {
  automaticHazardsRegression,
  type PenalisedHazardFit,
  penalisedHazardsRegression,
  type SummedTies,
} from "../../../../src/statistics/hazards/index.js";
import {
  type Expected,
  expectAllClose,
  expectClose,
  numbers,
  referenceCase,
  referenceRows,
} from "../reference-data.js";

// iterative on both sides: the reference stops its profile limits at 1e-11 of a coefficient, ours at the precision of a number
const rel = 1e-8;

const breast = referenceRows("cox_firth", "breast_heinze2001.csv");
const three = referenceRows("cox_firth", "three_subjects.csv");
const made = referenceRows("cox_firth", "group_without_events.csv");
const columnsOf = (
  rows: ReturnType<typeof referenceRows>,
  how: { time: string; event: string; names: string[] },
) => ({
  times: numbers(rows, how.time),
  events: numbers(rows, how.event),
  covariates: { names: how.names, columns: how.names.map((name) => numbers(rows, name)) },
});
const madeColumns = columnsOf(made, { time: "time", event: "status", names: ["group", "age"] });

function expectPenalised(fit: PenalisedHazardFit, expected: Expected): void {
  const each = (by: Record<string, Expected>) => fit.names.map((name) => by[name]);
  expect(fit.status).toBe("ok");
  expectAllClose(fit.coefficients, each(expected.coef), { rel, what: "coefficients" });
  expectAllClose(fit.standardErrors, each(expected.se_wald), { rel, what: "standard errors" });
  expectAllClose(fit.covariance.flat(), expected.covariance.flat(), { rel, abs: 1e-10, what: "covariance" });
  expectClose(fit.logLikelihood, expected.penalised_log_likelihood, { rel, what: "likelihood" });
  expectClose(fit.logLikelihoodNull, expected.penalised_log_likelihood_null, {
    rel,
    what: "likelihood at 0",
  });
  expectClose(fit.likelihoodRatio.statistic, expected.lr_chisq, { rel, what: "likelihood ratio" });
  expect(fit.likelihoodRatio.df).toBe(expected.lr_df);
  const ratios = (pick: "statistic" | "p") => fit.hazardRatios.map((ratio) => ratio[pick]);
  expectAllClose(ratios("statistic"), each(expected.penalised_lr_chisq_each), { rel, what: "each ratio" });
  expectAllClose(ratios("p"), each(expected.penalised_lr_p_each), { rel, what: "each p" });
  const limits = fit.profile.flatMap(({ lower, upper }) => [lower, upper]);
  expectAllClose(limits, each(expected.ci95_profile).flat(), { rel, what: "profile limits" });
}

describe("penalised proportional-hazards regression against its formula in R 4.2.2 and R package coxphf 1.13.1", () => {
  it("breast cancer, Heinze & Schemper 2001, Biometrics 57:114: no deaths with G = 0, Breslow", () => {
    const columns = columnsOf(breast, { time: "TIME", event: "CENS", names: ["T", "N", "G", "CD"] });
    expectPenalised(
      penalisedHazardsRegression(columns, { ties: "breslow" }),
      referenceCase("cox_firth", "breast_monotone_G").expected,
    );
  });

  it("three subjects by hand, Breslow", () => {
    const columns = columnsOf(three, { time: "time", event: "status", names: ["x"] });
    expectPenalised(
      penalisedHazardsRegression(columns, { ties: "breslow" }),
      referenceCase("cox_firth", "three_subjects").expected,
    );
  });

  it.each<SummedTies>(["breslow", "efron"])("a group without events (made up), %s", (ties) => {
    expectPenalised(
      penalisedHazardsRegression(madeColumns, { ties }),
      referenceCase("cox_firth", "group_without_events").expected[ties],
    );
  });

  it("the automatic choice is the penalised fit there, and the ordinary one without that group's trouble", () => {
    const found = automaticHazardsRegression(madeColumns);
    expect(found.chosen).toBe("penalised");
    expect(found.ordinary.status).toBe("monotone-likelihood");
    expect(found.penalised).toEqual(penalisedHazardsRegression(madeColumns));
    const ageOnly = columnsOf(made, { time: "time", event: "status", names: ["age"] });
    expect(automaticHazardsRegression(ageOnly).chosen).toBe("ordinary");
  });
});
