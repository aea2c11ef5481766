import { grades } from "../schema/terms.js";
import {
  type ClusteredGroupedTimes,
  fewClustersLogRank,
  fewClustersTrend,
  personPermutedLogRank,
} from "../statistics/comparison/index.js";
import { logRank, logRankTrend, permutedLogRank, proportionalityTest } from "../statistics/index.js";
import { hazardRowsOf } from "./effects/hazard-ratio.js";
import type { ExactTest } from "./exact-results.js";
import { type Group, type Grouping, timeToEventOf } from "./groups.js";
import { type Pair, pairsOf } from "./pairs.js";
import type { Plan } from "./plan.js";
import { adjustersOf, strataOf } from "./strata.js";

/** Whether the curves of a family differ by more than chance: the log-rank test, and its fitting variants. */
export function testsOf(grouping: Grouping, plan: Plan): ExactTest[] {
  const fields = adjustersOf(plan).strata;
  const plain = logRankOf(grouping, []);
  if (grouping.family === "grade") {
    return [tooFewForTheory(plain) ? permuted(plain, grouping, plan) : plain, trendOverGrades(grouping)];
  }
  return [
    plain,
    ...(fields.length === 0 ? [] : [logRankOf(grouping, fields)]),
    ...pairsOf(grouping, plan).map((pair) => proportionalityOf(pair, plan)),
  ];
}

/** Whether the hazard ratio of a pair drifts with time, in the model that the adjusted ratio comes from. */
function proportionalityOf(pair: Pair, plan: Plan): ExactTest {
  const { strata, numbers } = adjustersOf(plan);
  const test = proportionalityTest(hazardRowsOf({ pair, strata, numbers }).columns);
  const { statistic, df, p, reason } = test.covariates[0]!;
  return {
    id: `proportionality:${pair.compared.label}-${pair.reference.label}`,
    method: "proportionality",
    family: "compared",
    groups: [pair.compared, pair.reference].map(({ label, records }) => ({
      label,
      n: records.length,
      observed: null,
      expected: null,
    })),
    strata: [...strata],
    clustered: false,
    statistic,
    degrees_of_freedom: df,
    p,
    reason: reason ?? test.reason,
  };
}

/** Fewer returns than this expected in a group and chi-square no longer holds: measured, tests/honesty/results.md. */
const fewestExpected = 5;

const tooFewForTheory = ({ groups, reason }: ExactTest): boolean =>
  reason === null && groups.some(({ expected }) => expected !== null && expected < fewestExpected);

/** Whether somebody has injuries in several groups, and so cannot be dealt out to one of them. */
function crossesGroups({ records, codes }: Rows): boolean {
  const groupOf = new Map<string, number>();
  return records.some(({ person }, row) => {
    const before = groupOf.get(person) ?? codes[row]!;
    groupOf.set(person, before);
    return before !== codes[row];
  });
}

/** The log-rank test by dealing the groups out anew: over persons, or where some have injuries in several groups, over their lists of groups. */
function permuted(plain: ExactTest, grouping: Grouping, plan: Plan): ExactTest {
  const rows = rowsOf(grouping.groups);
  const columns = { ...timeToEventOf(rows.records, grouping.clustered), groups: rows.codes };
  const { clusters } = columns;
  const test =
    clusters !== undefined && crossesGroups(rows)
      ? personPermutedLogRank({ ...columns, clusters }, { seed: plan.seed })
      : permutedLogRank(columns, { seed: plan.seed });
  return {
    ...plain,
    id: `log_rank_permuted:${grouping.family}`,
    method: "log_rank_permuted",
    statistic: test.chiSquare,
    degrees_of_freedom: test.df,
    p: test.p,
    reason: test.reason,
  };
}

interface Rows {
  readonly records: Group["records"];
  readonly codes: Int32Array;
}

/** Rows put together before: several tests look at the same groups. */
const made = new WeakMap<readonly Group[], Rows>();

function rowsOf(groups: readonly Group[]): Rows {
  const rows = made.get(groups) ?? rowsTogether(groups);
  made.set(groups, rows);
  return rows;
}

function rowsTogether(groups: readonly Group[]): Rows {
  const records = groups.flatMap((group) => group.records);
  const codes = new Int32Array(records.length);
  let from = 0;
  for (const [code, group] of groups.entries()) {
    codes.fill(code, from, from + group.records.length);
    from += group.records.length;
  }
  return { records, codes };
}

function logRankOf(grouping: Grouping, fields: ReturnType<typeof adjustersOf>["strata"]): ExactTest {
  const { records, codes } = rowsOf(grouping.groups);
  const strata = fields.length > 0 ? { strata: strataOf(records, fields).codes } : {};
  const columns = { ...timeToEventOf(records, grouping.clustered), groups: codes, ...strata };
  const { clusters } = columns;
  const test = clusters === undefined ? logRank(columns) : fewClustersLogRank({ ...columns, clusters });
  const method = fields.length > 0 ? "log_rank_stratified" : "log_rank";
  return {
    id: `${method}:${grouping.family}`,
    method,
    family: grouping.family as ExactTest["family"],
    groups: grouping.groups.map(({ label, records }, code) => {
      const at = test.groups.indexOf(code);
      return {
        label,
        n: records.length,
        observed: test.observed[at] ?? null,
        expected: test.expected[at] ?? null,
      };
    }),
    strata: [...fields],
    clustered: grouping.clustered,
    statistic: test.chiSquare,
    degrees_of_freedom: test.df,
    p: test.p,
    reason: test.reason,
  };
}

/** The trend's t as the z of the other. */
function trendOverPersons(columns: ClusteredGroupedTimes, scores: readonly number[]) {
  const { t, p, reason } = fewClustersTrend(columns, { scores });
  return { z: t, p, reason };
}

/** Trend over grades 1, 2, 3, 4a, 4b with scores 1 to 5; a grade without its letter has no place in that order. */
function trendOverGrades({ groups, family, clustered }: Grouping): ExactTest {
  const ordered = groups.filter(({ label }) => label !== "4_undivided" && label !== "unknown");
  const { records, codes } = rowsOf(ordered);
  const scores = ordered.map(({ label }) => (grades as readonly string[]).indexOf(label) + 1);
  const columns = { ...timeToEventOf(records, clustered), groups: codes };
  const { clusters } = columns;
  const test =
    clusters === undefined
      ? logRankTrend(columns, { scores })
      : trendOverPersons({ ...columns, clusters }, scores);
  return {
    id: `log_rank_trend:${family}`,
    method: "log_rank_trend",
    family: "grade",
    groups: ordered.map(({ label, records }) => ({
      label,
      n: records.length,
      observed: null,
      expected: null,
    })),
    strata: [],
    clustered,
    statistic: test.z === null ? null : test.z ** 2,
    degrees_of_freedom: 1,
    p: test.p,
    reason: test.reason,
  };
}
