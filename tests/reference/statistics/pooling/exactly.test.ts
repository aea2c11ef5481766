import { describe, expect, it } from "vitest";
import { shareAt } from "../../../../src/statistics/index.js";
import { acceleratedAt, deletionsAt, hazardsAt } from "../../../../src/statistics/pooling/rounds/index.js";
import {
  addRiskSetTables,
  binnedRows,
  hazardsOfTable,
  logRankOfTable,
  productLimitOfTable,
  riskSetTable,
} from "../../../../src/statistics/pooling/tables/index.js";
import { expectClose, numbers, referenceCase, referenceRows } from "../reference-data.js";
import { climbed } from "./climb.js";

/* Source of every number: R 4.2.2 with its package survival on all rows (tests/reference/data/pooled_exactly). */
const topic = "pooled_exactly";
const rows = referenceRows(topic, "kidney_catheter.csv");
const column = (name: string) => numbers(rows, name);
const [times, events, sex, age, people] = ["time", "status", "sex", "age", "id"].map(column) as [
  number[],
  number[],
  number[],
  number[],
  number[],
];

/** Rows of each of three sites, by the subject's number. */
const sites = [0, 1, 2].map((site) => people.flatMap((id, row) => (id % 3 === site ? [row] : [])));
const at = (values: readonly number[], own: readonly number[]) => own.map((row) => values[row]!);

describe("hazards over rounds", () => {
  const { expected, tolerance } = referenceCase(topic, "rounds");

  it.each(["efron", "breslow"] as const)("%s ties", (ties) => {
    const columnsOf = (own: readonly number[]) => ({
      times: at(times, own),
      events: at(events, own),
      clusters: at(people, own),
      covariates: { names: ["sex", "age"], columns: [at(sex, own), at(age, own)] },
    });
    const fit = climbed(
      {
        sums: (own, point, squares) => hazardsAt(columnsOf(own), { point, ties, squares }),
        deletions: (own, { point, score, information }) =>
          deletionsAt(columnsOf(own), { point, ties, score, information }),
      },
      { sites, start: [0, 0], names: ["sex", "age"], intercepts: "none", positive: null },
    );
    const { few_people: few } = expected[ties];
    expect(fit).toMatchObject({ correction: "deletion", degreesOfFreedom: few.df });
    fit.parameters.forEach((found, j) => {
      const { rel } = tolerance;
      expectClose(found.coefficient, expected[ties].coefficients[j], { rel, what: `coefficient ${j}` });
      expectClose(found.standardError, expected[ties].se[j], { rel, what: `error ${j}` });
      expectClose(found.robustStandardError, expected[ties].robust_se[j], { rel, what: `robust ${j}` });
      expectClose(found.correctedStandardError, few.se[j], { rel: 1e-7, what: `corrected ${j}` });
      expectClose(found.ratio.lower, few.lower[j], { rel: 1e-7, what: `lower limit ${j}` });
      expectClose(found.ratio.p, few.p[j], { rel: 1e-7, what: `p ${j}` });
    });
    expectClose(fit.logLikelihood, expected[ties].log_likelihood, { rel: 1e-10, what: "log-likelihood" });
  });
});

describe("accelerated models over rounds", () => {
  const { expected, tolerance } = referenceCase(topic, "between");
  const left = times.map((time, row) => (events[row] === 1 ? Math.floor((time - 1) / 30) * 30 : time));
  const right = left.map((time, row) => (events[row] === 1 ? time + 30 : null));

  it.each(["weibull", "exponential", "log-normal", "log-logistic"] as const)("%s law", (law) => {
    const fit = climbed(
      {
        sums: (own, point, squares) =>
          acceleratedAt(
            {
              left: at(left, own),
              right: own.map((row) => right[row]!),
              clusters: at(people, own),
              covariates: { names: ["sex", "age"], columns: [at(sex, own), at(age, own)] },
            },
            { point, law, squares },
          ),
      },
      {
        sites,
        start: [4, 4, 4, 0, 0, 1],
        names: ["site 0", "site 1", "site 2", "sex", "age", "1 / scale"],
        intercepts: "by-site",
        positive: 5,
      },
    );
    const { coefficients, se, robust_se: robust, scale, log_likelihood: likelihood } = expected[law];
    const { rel } = tolerance;
    const [site0, site1, site2, ofSex, ofAge, ofScale] = fit.parameters;
    [site0, ofSex, ofAge].forEach((found, j) => {
      expectClose(found!.coefficient, coefficients[j], { rel, what: `coefficient ${j}` });
      expectClose(found!.standardError, se[j], { rel, what: `error ${j}` });
      expectClose(found!.robustStandardError, robust[j], { rel, what: `robust ${j}` });
      // 38 subjects; five coefficients, and a scale unless it is fixed: the factor of Hinkley 1977, Technometrics 19:285
      const df = 38 - (law === "exponential" ? 5 : 6);
      expect(fit).toMatchObject({ correction: "parameters", degreesOfFreedom: df });
      expectClose(found!.correctedStandardError, robust[j] * Math.sqrt(38 / df), {
        rel,
        what: `corrected ${j}`,
      });
    });
    [site1, site2].forEach((found, j) => {
      expectClose(found!.coefficient, coefficients[0] + coefficients[3 + j], { rel, what: `site ${j}` });
    });
    expectClose(Math.exp(ofScale!.coefficient ?? 0), scale, { rel, what: "scale" });
    expectClose(fit.logLikelihood, likelihood, { rel: 1e-9, what: "log-likelihood" });
  });
});

describe("weekly tables of three sites, added", () => {
  const { expected, tolerance } = referenceCase(topic, "weekly");
  const { rel } = tolerance;
  const ends = Array.from({ length: 90 }, (_, week) => 7 * (week + 1));
  const table = addRiskSetTables(
    sites.map((own, site) =>
      riskSetTable(
        binnedRows(
          {
            times: at(times, own),
            causes: at(events, own),
            groups: at(sex, own),
            strata: own.map(() => site),
            covariates: { names: ["sex"], columns: [at(sex, own)] },
          },
          { ends },
        ),
      ),
    ),
  );

  it.each(["efron", "breslow"] as const)("hazards regression, %s ties", (ties) => {
    const fit = hazardsOfTable(table, { ties });
    expectClose(fit.coefficients[0], expected[ties].coefficients[0], { rel, what: "coefficient" });
    expectClose(fit.standardErrors[0], expected[ties].se[0], { rel, what: "error" });
    expectClose(fit.logLikelihood, expected[ties].log_likelihood, { rel: 1e-10, what: "log-likelihood" });
  });

  it("log-rank test within sites", () => {
    expectClose(logRankOfTable(table).chiSquare, expected.log_rank, { rel, what: "chi-square" });
  });

  it("product-limit curve of the second group with its log-log limits", () => {
    const curve = productLimitOfTable(table, { group: 2 });
    expect(expected.at).toHaveLength(3);
    expected.at.forEach((time: number, i: number) => {
      const { notYet, lower, upper } = shareAt(curve, time);
      expectClose(notYet, expected.female.share[i], { rel, what: `share at ${time}` });
      expectClose(lower, expected.female.lower[i], { rel, what: `lower limit at ${time}` });
      expectClose(upper, expected.female.upper[i], { rel, what: `upper limit at ${time}` });
    });
  });
});
