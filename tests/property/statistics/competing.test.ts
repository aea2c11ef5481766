import * as fc from "fast-check";
import { describe, test } from "vitest";
import { permutedLogRank } from "../../../src/statistics/comparison/index.js";
import {
  grayTest,
  type SubdistributionColumns,
  subdistributionIncidence,
  subdistributionRegression,
} from "../../../src/statistics/competing/index.js";
import {
  cumulativeIncidence,
  hazardsRegression,
  logRank,
  productLimit,
} from "../../../src/statistics/index.js";
import { landmarkContrast } from "../../../src/statistics/survival/landmark-contrast.js";
import { allNear, type CohortRow, columns, near, row, settings } from "./cohorts.js";

const ended = fc.record({
  row,
  cause: fc.integer({ min: 0, max: 2 }),
  person: fc.integer({ min: 0, max: 9 }),
});
const endings = fc.array(ended, { minLength: 25, maxLength: 50 });
type Ended = { readonly row: CohortRow; readonly cause: number; readonly person: number };

const subdistribution = (rows: readonly Ended[]): SubdistributionColumns => ({
  times: rows.map((one) => one.row.time),
  causes: rows.map((one) => one.cause),
  covariates: {
    names: ["group", "x"],
    columns: [rows.map((one) => one.row.group), rows.map((one) => one.row.x)],
  },
});
const causesByGroup = (rows: readonly Ended[]) => ({
  times: rows.map((one) => one.row.time),
  causes: rows.map((one) => one.cause),
  groups: rows.map((one) => one.row.group),
});
const grouped = (rows: readonly Ended[]) => ({
  ...columns(rows.map((one) => one.row)),
  groups: rows.map((one) => one.row.group),
});

describe("subdistribution regression", () => {
  test("without other events it is hazards regression with Breslow ties and robust variance", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const plain = rows.map((one) => ({ ...one, cause: Math.min(1, one.cause) }));
        const ours = subdistribution(plain);
        const found = subdistributionRegression(ours);
        const { times, causes, covariates } = ours;
        const other = hazardsRegression(
          { times, events: causes, covariates, clusters: plain.map((_, at) => at) },
          { ties: "breslow" },
        );
        if (found.status !== "ok" || other.status !== "ok") return found.status === other.status;
        return (
          allNear(found.coefficients, other.coefficients, 1e-6) &&
          allNear(found.standardErrors, other.robustStandardErrors ?? [], 1e-6) &&
          near(found.logPseudoLikelihood, other.logLikelihood, 1e-9)
        );
      }),
      settings,
    );
  });

  test("every row twice, both copies one cluster: the same fit and errors as every row once", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const once = subdistributionRegression(subdistribution(rows));
        const twice = subdistributionRegression({
          ...subdistribution([...rows, ...rows]),
          clusters: [...rows, ...rows].map((_, at) => at % rows.length),
        });
        if (once.status !== "ok") return once.status === twice.status;
        return (
          allNear(once.coefficients, twice.coefficients, 1e-6) &&
          allNear(once.standardErrors, twice.standardErrors, 1e-6)
        );
      }),
      settings,
    );
  });

  test("the order of rows is immaterial; units and origin of a covariate only rescale; one censoring group is none", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const one = subdistributionRegression(subdistribution(rows));
        const turned = subdistributionRegression(subdistribution([...rows].reverse()));
        const { covariates, ...rest } = subdistribution(rows);
        const moved = subdistributionRegression({
          ...rest,
          covariates: {
            names: covariates.names,
            columns: [covariates.columns[0]!, Array.from(covariates.columns[1]!, (x) => 100 + 10 * x)],
          },
          censoringGroups: rows.map(() => 5),
        });
        if (one.status !== "ok") return one.status === turned.status && one.status === moved.status;
        return (
          allNear(one.coefficients, turned.coefficients, 1e-6) &&
          near(one.coefficients[1], 10 * moved.coefficients[1]!, 1e-6) &&
          near(one.standardErrors[1], 10 * moved.standardErrors[1]!, 1e-6)
        );
      }),
      settings,
    );
  });

  test("predicted incidence rises, stays within 0 to 1 and within its interval", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const source = {
          columns: subdistribution(rows),
          fit: subdistributionRegression(subdistribution(rows)),
        };
        const times = [...Array(41).keys()];
        const predicted = subdistributionIncidence(source, { covariates: [1, 2], times });
        return predicted.every(({ incidence, lower, upper, reason }, at) => {
          if (incidence === null) return reason !== null;
          const before = at === 0 ? 0 : (predicted[at - 1]?.incidence ?? 0);
          if (incidence < before || incidence > 1) return false;
          return (
            lower === null ||
            upper === null ||
            (0 <= lower && lower <= incidence && incidence <= upper && upper <= 1)
          );
        });
      }),
      settings,
    );
  });
});

describe("Gray's test", () => {
  test("one stratum is none; strata that never meet add up; swapping groups turns the sign", () => {
    fc.assert(
      fc.property(endings, endings, (rows, more) => {
        const plain = grayTest(causesByGroup(rows));
        const stratified = grayTest({ ...causesByGroup(rows), strata: rows.map(() => 3) });
        const swapped = grayTest({ ...causesByGroup(rows), groups: rows.map((one) => 1 - one.row.group) });
        const both = grayTest({
          ...causesByGroup([...rows, ...more]),
          strata: [...rows.map(() => 1), ...more.map(() => 2)],
        });
        const other = grayTest(causesByGroup(more));
        if (plain.z === null || other.z === null || both.z === null) return true;
        return (
          near(plain.chiSquare, stratified.chiSquare) &&
          near(plain.z, -swapped.z!, 1e-8) &&
          near(both.observed[0], plain.observed[0]! + other.observed[0]!) &&
          near(both.variance[0]![0], plain.variance[0]![0]! + other.variance[0]![0]!)
        );
      }),
      settings,
    );
  });

  test("without other events and without ties the score is the log-rank test's", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const times = rows.map((one, at) => one.row.time + at / 1000);
        const groups = rows.map((one) => one.row.group);
        const events = rows.map((one) => one.row.event);
        const gray = grayTest({ times, causes: events, groups });
        return allNear(gray.expected, logRank({ times, events, groups }).expected, 1e-9);
      }),
      settings,
    );
  });
});

describe("cumulative incidence", () => {
  test("Aalen's error is a number, 0 or more, and never less than the delta one where no times are tied", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const data = {
          times: rows.map((one, at) => one.row.time + at / 1000),
          causes: rows.map((one) => one.cause),
        };
        const delta = cumulativeIncidence(data);
        const aalen = cumulativeIncidence(data, { variance: "aalen" });
        return aalen.causes.every(({ standardError }, k) =>
          standardError.every((error, at) => error >= delta.causes[k]!.standardError[at]! - 1e-12),
        );
      }),
      settings,
    );
  });
});

describe("log-rank", () => {
  test("clustered: every row twice, both copies one cluster, doubles the scores and keeps chi-square", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const once = logRank({ ...grouped(rows), clusters: rows.map((one) => one.person) });
        const all = [...rows, ...rows];
        const twice = logRank({ ...grouped(all), clusters: all.map((one) => one.person) });
        return near(once.chiSquare, twice.chiSquare, 1e-6) && once.df === twice.df;
      }),
      settings,
    );
  });

  test("one-sided p-values add up to 1 and the smaller is half the two-sided one", () => {
    fc.assert(
      fc.property(endings, (rows) => {
        const { oneSided, p } = logRank(grouped(rows));
        if (oneSided === null) return p === null || p === undefined;
        const { more, fewer } = oneSided;
        return near(more + fewer, 1) && near(2 * Math.min(more, fewer), p);
      }),
      settings,
    );
  });

  test("permuted: surplus is observed less expected; swapping groups swaps the sides; p of every permutation is at least 1 / permutations", () => {
    const few = fc.array(ended, { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(few, (rows) => {
        const data = grouped(rows);
        const found = permutedLogRank(data);
        const asymptotic = logRank(data);
        const surplus = asymptotic.observed.map((value, k) => value - asymptotic.expected[k]!);
        if (!allNear(found.surplus, surplus, 1e-8)) return false;
        if (found.p === null) return found.reason !== null;
        const swapped = permutedLogRank({ ...data, groups: data.groups.map((group) => 1 - group) });
        return (
          near(found.p, swapped.p) &&
          near(found.oneSided?.more, swapped.oneSided?.fewer) &&
          found.p >= 1 / found.permutations - 1e-12 &&
          found.p <= 1
        );
      }),
      settings,
    );
  });
});

describe("landmark contrasts", () => {
  test("turning the groups round turns the interval; the hybrid one holds the difference and stays within -1 to 1", () => {
    const side = fc.array(row, { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(side, side, fc.integer({ min: 0, max: 40 }), (first, second, time) => {
        const [a, b] = [productLimit(columns(first)), productLimit(columns(second))];
        const [one] = landmarkContrast({ a, b }, { times: [time] });
        const [turned] = landmarkContrast({ a: b, b: a }, { times: [time] });
        const { lower, upper } = one!.hybrid;
        if (lower === null || upper === null) return one!.hybrid.reason !== null;
        const difference = one!.difference.difference!;
        return (
          near(lower, -turned!.hybrid.upper!) &&
          lower <= difference &&
          difference <= upper &&
          lower >= -1 &&
          upper <= 1
        );
      }),
      settings,
    );
  });
});
