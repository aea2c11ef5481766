import { describe, expect, it } from "vitest";
import {
  fewClustersLogRank,
  fewClustersTrend,
  personPermutedLogRank,
} from "../../../../src/statistics/comparison/index.js";
import { logRankScores } from "../../../../src/statistics/comparison/log-rank-scores.js";
import { type Expected, expectAllClose, expectClose } from "../reference-data.js";
import { casesOf, finger } from "./few-clusters.js";

const person = finger("person");
const back = { times: finger("time"), events: finger("cause").map((cause) => (cause === 1 ? 1 : 0)) };
const sets = {
  "two groups": { groups: finger("group"), clusters: person },
  "two groups within grades": { groups: finger("group"), strata: finger("grade"), clusters: person },
  "three grades and their trend": { groups: finger("grade"), clusters: person },
  "two groups within grades, late entry": {
    groups: finger("group"),
    strata: finger("grade"),
    entries: finger("entry"),
    clusters: person,
  },
  "two groups, six large clusters": {
    groups: finger("group"),
    clusters: person.map((one) => Math.ceil(one / 5)),
  },
} as const;

describe("log-rank with few clusters, against score residuals of R package survival 3.5.3 and the score without each cluster", () => {
  it.each(casesOf("logranks"))("$id", (wanted: Expected) => {
    const columns = { ...back, ...sets[wanted.id as keyof typeof sets] };
    const found = fewClustersLogRank(columns);
    const how = { rel: 1e-8 };
    const list = (value: Expected): Expected[] => [value].flat(2);
    expect(found.correction).toBe("deletion");
    const surplus = found.observed.map((value, g) => value - found.expected[g]!).slice(1);
    expectAllClose(surplus, list(wanted.surplus), { ...how, abs: 1e-10, what: "surplus" });
    const variance = found.variance.slice(1).flatMap((row) => row.slice(1));
    expectAllClose(variance, list(wanted.covariance), { ...how, abs: 1e-10, what: "variance" });
    expectClose(found.chiSquare, wanted.chi, { ...how, what: "chi-square" });
    expectClose(found.f, wanted.f, { ...how, what: "F" });
    expectClose(found.p, wanted.p, { ...how, what: "p" });
    expect(found.df).toBe(wanted.df);
    if (wanted.trend === undefined) return;
    const trend = fewClustersTrend(columns);
    expectClose(trend.t, wanted.trend.t, { ...how, what: "t" });
    expectClose(trend.p, wanted.trend.p, { ...how, what: "p of the trend" });
  });
});

describe("persons' lists of groups permuted", () => {
  const columns = {
    times: [4, 9, 2, 7, 5, 8, 1, 6, 3],
    events: [1, 1, 1, 0, 1, 1, 1, 1, 1],
    groups: [0, 1, 0, 0, 1, 1, 0, 1, 1],
    clusters: [1, 1, 2, 2, 3, 3, 4, 5, 6],
  };

  it("against all 3! x 3! permutations of three pairs and three single fingers, by hand", () => {
    const scores = logRankScores(columns, "equal");
    const orders = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ] as const;
    const sums = orders.flatMap((pairs) =>
      orders.map((singles) => {
        const groups = [
          ...pairs.flatMap((from) => columns.groups.slice(2 * from, 2 * from + 2)),
          ...singles.map((from) => columns.groups[6 + from]!),
        ];
        return groups.reduce((sum, group, row) => sum + (group === 1 ? scores[row]! : 0), 0);
      }),
    );
    const far = sums.filter((sum) => Math.abs(sum) >= Math.abs(sums[0]!) - 1e-12).length;
    const { p, draws } = personPermutedLogRank(columns, { seed: 3 });
    const exact = far / sums.length;
    expect(Math.abs(p! - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / draws));
  });

  it("says why it has no answer", () => {
    expect(
      personPermutedLogRank({ ...columns, groups: columns.groups.map(() => 0) }, { seed: 1 }).reason,
    ).toBe("one-group");
    expect(
      personPermutedLogRank({ ...columns, events: columns.events.map(() => 0) }, { seed: 1 }).reason,
    ).toBe("no-events");
    expect(() => personPermutedLogRank({ ...columns, strata: columns.groups }, { seed: 1 })).toThrow(
      /strata/,
    );
  });
});
