import { deriveCohort } from "../cohort/derive.js";
import { linkTables } from "../cohort/link.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import { accountOf, queryGroupsOf } from "./account.js";
import { answersOf } from "./answers-of.js";
import { cohortTable } from "./cohort-table.js";
import { curveFamily } from "./curves.js";
import { distancesOf } from "./distances.js";
import { effectsOf } from "./effects/index.js";
import { followUpOf } from "./follow-up.js";
import { byGrade, compared, everybody } from "./groups.js";
import { lostOf } from "./missing/lost.js";
import { missingValuesOf } from "./missing/missing-values.js";
import type { Plan } from "./plan.js";
import { questionOf } from "./question-of.js";
import type { Results } from "./results.js";
import { standardisedFamilies } from "./standardised-family.js";
import { testsOf } from "./tests-of-groups.js";
import { warningsOf } from "./warnings.js";

/**
 * Answers a study's question from tables that were read:
 * link the tables, derive a record an injury, group the records, and estimate.
 *
 * @param read typed tables with their row account
 * @param plan the study file with its defaults filled in
 * @returns every number of the report, at full precision; the same input gives the same results to the last digit
 * @throws Error when rows in and rows out differ, which is a fault of the toolkit
 */
export function answer(read: ReadCohort, plan: Plan): Results {
  const derived = deriveCohort(linkTables(read.tables), questionOf(plan));
  const { records } = derived;
  const comparison = compared(records, plan);
  const grades = byGrade(records, plan);
  const distances = read.tables.imaging.length === 0 ? null : distancesOf(comparison, plan);
  const results = {
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
  return { ...results, warnings: warningsOf(results, records) };
}
