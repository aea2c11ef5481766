import type { OutcomeRecord } from "../cohort/record.js";
import { grades } from "../schema/terms.js";
import {
  type ClusteredGroupedTimes,
  fewClustersLogRank,
  fewClustersTrend,
  personPermutedLogRank,
} from "../statistics/comparison/index.js";
import { logRank, logRankTrend, permutedLogRank, proportionalityTest } from "../statistics/index.js";
import { type Columns, columnsOf } from "./columns.js";
import type { ExactTest } from "./exact-results.js";
import type { Grouping, Members } from "./groups.js";
import { adjustedHazardRows, hazardColumns } from "./hazard-rows.js";
import type { Pair } from "./pairs.js";
import type { Comparison } from "./specification.js";
import { isInStratum, strataOf } from "./strata.js";

/** Whether the curves of the grades differ by more than chance, and whether they do so in the order of the grades. */
export function testsOfGrades(grades: Grouping, { seed }: { readonly seed: number }): ExactTest[] {
  const rows = rowsOf(grades.groups, grades);
  const plain = logRankOf({ ...grades, rows }, []);
  return [tooFewForTheory(plain) ? permuted(plain, { rows, seed }) : plain, trendOverGrades(grades)];
}

/** Whether the curves of the compared groups differ by more than chance, and whether the hazard ratio of each pair is steady. */
export function testsOfComparison(
  compared: Grouping,
  { pairs, comparison }: { readonly pairs: readonly Pair[]; readonly comparison: Comparison },
): ExactTest[] {
  const { strata } = comparison;
  const rows = rowsOf(compared.groups, compared);
  return [
    logRankOf({ ...compared, rows }, []),
    ...(strata.length === 0 ? [] : [logRankOf(inStrata(compared, strata), strata)]),
    ...pairs.map((pair) => proportionalityOf(pair, comparison)),
  ];
}

/** The log-rank test needs each return on a day: where they are known between two days only it is not made, and says why. */
export function withoutTest({ family, groups, clustered }: Grouping): ExactTest {
  return {
    id: `log_rank:${family}`,
    method: "log_rank",
    family: family as ExactTest["family"],
    groups: groups.map(({ label, records }) => ({
      label,
      n: records.length,
      observed: null,
      expected: null,
    })),
    strata: [],
    clustered,
    statistic: null,
    degrees_of_freedom: null,
    p: null,
    reason: "between-visits",
  };
}

/** The groups without the injuries that are in no stratum: they are like none of the others. */
function inStrata(compared: Grouping, fields: Comparison["strata"]): Grouping & { readonly rows: Rows } {
  const groups = compared.groups.map((group) => {
    const strata = strataOf(group.records, fields);
    return { ...group, records: group.records.filter((_, row) => isInStratum(strata, row)) };
  });
  return { ...compared, groups, rows: rowsOf(groups, compared) };
}

/** Whether the hazard ratio of a pair drifts with time, in the model that the adjusted ratio comes from. */
function proportionalityOf(pair: Pair, comparison: Comparison): ExactTest {
  const { strata, numbers } = comparison;
  const { rows } = adjustedHazardRows(pair, comparison);
  const test = proportionalityTest(hazardColumns(rows, { numbers }));
  const { statistic, df, p, reason } = test.covariates[0]!;
  return {
    id: `proportionality:${pair.compared.label}-${pair.reference.label}`,
    method: "proportionality",
    family: "compared",
    groups: [pair.compared, pair.reference].map(({ label }, i) => ({
      label,
      n: rows.isCompared.filter((side) => side === 1 - i).length,
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
function permuted(
  plain: ExactTest,
  { rows, seed }: { readonly rows: Rows; readonly seed: number },
): ExactTest {
  const columns = { ...rows.columns.timeToEvent, groups: rows.codes };
  const { clusters } = columns;
  const test =
    clusters !== undefined && crossesGroups(rows)
      ? personPermutedLogRank({ ...columns, clusters }, { seed })
      : permutedLogRank(columns, { seed });
  return {
    ...plain,
    id: `log_rank_permuted:${plain.family}`,
    method: "log_rank_permuted",
    statistic: test.chiSquare,
    degrees_of_freedom: test.df,
    p: test.p,
    reason: test.reason,
  };
}

/** The records of several groups in one list, and the group of each. */
interface Rows {
  readonly records: readonly OutcomeRecord[];
  readonly codes: Int32Array;
  readonly columns: Columns;
}

function rowsOf(groups: readonly Members[], { clustered }: { readonly clustered: boolean }): Rows {
  const records = groups.flatMap((group) => group.records);
  const codes = new Int32Array(records.length);
  let from = 0;
  for (const [code, group] of groups.entries()) {
    codes.fill(code, from, from + group.records.length);
    from += group.records.length;
  }
  return { records, codes, columns: columnsOf(records, { clustered }) };
}

function logRankOf(
  { rows, family, groups, clustered }: Grouping & { readonly rows: Rows },
  fields: Comparison["strata"],
): ExactTest {
  const strata = fields.length > 0 ? { strata: strataOf(rows.records, fields).codes } : {};
  const columns = { ...rows.columns.timeToEvent, groups: rows.codes, ...strata };
  const { clusters } = columns;
  const test = clusters === undefined ? logRank(columns) : fewClustersLogRank({ ...columns, clusters });
  const method = fields.length > 0 ? "log_rank_stratified" : "log_rank";
  return {
    id: `${method}:${family}`,
    method,
    family: family as ExactTest["family"],
    groups: groups.map(({ label, records }, code) => {
      const at = test.groups.indexOf(code);
      return {
        label,
        n: records.length,
        observed: test.observed[at] ?? null,
        expected: test.expected[at] ?? null,
      };
    }),
    strata: [...fields],
    clustered,
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
  const rows = rowsOf(ordered, { clustered });
  const scores = ordered.map(({ label }) => (grades as readonly string[]).indexOf(label) + 1);
  const columns = { ...rows.columns.timeToEvent, groups: rows.codes };
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
