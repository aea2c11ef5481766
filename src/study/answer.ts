import { deriveCohort } from "../cohort/derive.js";
import { linkTables } from "../cohort/link.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import { accountOf, queryGroupsOf } from "./account.js";
import { answersOf } from "./answers-of.js";
import { cohortTable } from "./cohort-table.js";
import { curveFamily } from "./curves.js";
import { distancesOf } from "./distances.js";
import { effectsOf } from "./effects/index.js";
import type { ExactResults } from "./exact-results.js";
import { followUpOf } from "./follow-up.js";
import { byGrade, compared, everybody } from "./groups.js";
import { lostOf } from "./missing/lost.js";
import { missingValuesOf } from "./missing/missing-values.js";
import type { Plan } from "./plan.js";
import { questionOf } from "./question-of.js";
import { countSmallCells, fewestRows, usualSmallestCell } from "./small-cells/index.js";
import { standardisedFamilies } from "./standardised-family.js";
import { testsOf } from "./tests-of-groups.js";
import { warningsOf } from "./warnings.js";

/**
 * Answers a study's question from tables that were read:
 * link the tables, derive a record an injury, group the records, and estimate.
 *
 * @param read typed tables with their row account
 * @param plan the study file with its defaults filled in
 * @param options smallestCell: fewer people than this behind a count make a small cell; it is counted how many there are
 * @returns every number of the report, at full precision; the same input gives the same results to the last digit
 * @throws Error when rows in and rows out differ, which is a fault of the toolkit
 */
export function answer(
  read: ReadCohort,
  plan: Plan,
  { smallestCell = usualSmallestCell }: { readonly smallestCell?: number } = {},
): ExactResults {
  const derived = deriveCohort(linkTables(read.tables), questionOf(plan));
  const { records } = derived;
  const comparison = compared(records, plan);
  const grades = byGrade(records, plan);
  const distances = read.tables.imaging.length === 0 ? null : distancesOf(comparison, plan);
  const found: Omit<ExactResults, "small_cells" | "warnings"> = {
    format: "pulley-outcomes results 1" as const,
    plan,
    accounting: accountOf(read, derived, comparison),
    queries: queryGroupsOf(read.queries),
    answers: answersOf(read.answers),
    cohort: cohortTable(comparison, plan),
    follow_up: followUpOf(records, plan),
    missing: missingValuesOf(records, read.tables, plan),
    lost: lostOf(records, plan),
    curves: [
      ...[everybody(records, plan), grades, comparison].map((grouping) => curveFamily(grouping, plan)),
      ...standardisedFamilies(comparison, plan),
    ],
    tests: [...testsOf(grades, plan), ...testsOf(comparison, plan)],
    effects: effectsOf(comparison, plan),
    distances,
  };
  const results: ExactResults = {
    ...found,
    warnings: warningsOf(found, records),
    small_cells: { choice: "written", smallest: smallestCell, found: 0, left_out: [] },
  };
  const small = countSmallCells(results, fewestRows(read.tables, smallestCell));
  return { ...results, small_cells: { ...results.small_cells, found: small } };
}
