import type { KeptCohort } from "../cohort/kept-cohort.js";
import type { ReadCohort } from "../schema/cohort-tables.js";
import { accountOf, queryGroupsOf } from "./account.js";
import { afterReturnOf } from "./after-return.js";
import { analysedOf } from "./analysed.js";
import { answersOf } from "./answers-of.js";
import { cohortTable } from "./cohort-table.js";
import { curveFamily } from "./curves.js";
import { byDefinition } from "./definitions.js";
import { differencesOverTime } from "./differences-over-time.js";
import { distancesOf } from "./distances.js";
import { effectsOf } from "./effects.js";
import { estimandsOf } from "./estimands.js";
import type { ExactResults } from "./exact-results.js";
import { followUpOf } from "./follow-up.js";
import { lossBoundsOf } from "./loss-bounds.js";
import { measureOf } from "./measures/index.js";
import { lostOf } from "./missing/lost.js";
import { missingValuesOf } from "./missing/missing-values.js";
import type { Plan } from "./plan.js";
import { queriedAmong } from "./queried.js";
import { sitesOf } from "./sites/sites.js";
import { countSmallCells, fewestRows, usualSmallestCell } from "./small-cells/index.js";
import { standardisedFamilies } from "./standardised-family.js";
import { targetTrialOf } from "./target-trial/target-trial.js";
import { testsOfComparison, testsOfGrades, withoutTest } from "./tests-of-groups.js";
import type { SoFar } from "./warn.js";
import { warningsOf } from "./warnings.js";
import { withinOf } from "./within.js";

/** How a study is answered. */
export interface AnswerOptions {
  readonly smallestCell?: number;
  readonly cohort?: KeptCohort | undefined;
}

/**
 * Answers a study's question from tables that were read:
 * link the tables, derive a record an injury, group the records, and estimate.
 *
 * @param read typed tables with their row account
 * @param plan the study file with its defaults filled in
 * @param options smallestCell: fewer people than this behind a count make a small cell; it is counted how many there are.
 *   cohort: these tables as linked and derived, by `keptCohort`, where more than one thing is asked of them
 * @returns every number of the report, at full precision; the same input gives the same results to the last digit
 * @throws Error when the tables were read with another meaning of person ids than the plan's; when rows in and rows out differ, which is a fault of the toolkit
 */
export function answer(
  read: ReadCohort,
  plan: Plan,
  { smallestCell = usualSmallestCell, cohort }: AnswerOptions = {},
): ExactResults {
  const { specification, linked, derived, known, all, grades, groups, pairs } = analysedOf(read, plan, {
    cohort,
  });
  const { records } = derived;
  const inSpans = known.path === "spans";
  const defined = byDefinition({ records, compared: groups, sites: read.tables.sites }, specification);
  const isPooled = defined === null || defined.told.pooled;
  const { comparison, seed } = specification;
  const answered: Omit<SoFar, "target_trial" | "estimands"> = {
    format: "pulley-outcomes results 1" as const,
    plan,
    accounting: accountOf(read, derived, groups),
    queries: queryGroupsOf(read.queries),
    answers: answersOf(read.answers),
    cohort: cohortTable(groups, comparison),
    follow_up: followUpOf(all.groups[0]!, specification),
    known_returns: known,
    missing: missingValuesOf(records, read.tables, comparison),
    lost: lostOf(records, specification),
    loss_bounds: isPooled ? lossBoundsOf({ all, compared: groups, pairs }, specification) : null,
    definitions: defined?.told ?? null,
    sites:
      plan.data.from_sites === undefined
        ? null
        : sitesOf({ records, compared: groups }, specification, { isPooled }),
    // made from other files than the tables, by the layer above
    sealed: null,
    harmonised: null,
    curves: [
      ...[...(isPooled ? [all, grades, groups] : []), ...(defined === null ? [] : [defined.grouping])].map(
        (grouping) => curveFamily(grouping, specification),
      ),
      ...(isPooled ? standardisedFamilies(pairs, { ...specification, entry: groups.entry }) : []),
    ],
    // a band for all days together needs each return on one
    differences_over_time: isPooled && !inSpans ? differencesOverTime(pairs, specification) : [],
    within: isPooled ? withinOf(groups, specification) : null,
    after_return: afterReturnOf(isPooled ? [all, groups] : [defined.grouping], specification),
    tests: !isPooled
      ? []
      : inSpans
        ? [withoutTest(grades), withoutTest(groups)]
        : [...testsOfGrades(grades, { seed }), ...testsOfComparison(groups, { pairs, comparison })],
    effects: effectsOf(pairs, specification).filter(
      ({ measure }) => isPooled || measureOf(measure).outcome !== "return",
    ),
    distances: read.tables.imaging.length === 0 ? null : distancesOf(groups, specification),
  };
  const trial = { linked, analysed: records, groups, results: answered };
  const found: SoFar = {
    ...answered,
    estimands: estimandsOf(answered, specification),
    target_trial: targetTrialOf(trial, { plan, specification, isPooled }),
  };
  const results: ExactResults = {
    ...found,
    warnings: warningsOf(found, {
      records,
      specification,
      all,
      compared: groups,
      queried: queriedAmong(read, records),
    }),
    small_cells: { choice: "written", smallest: smallestCell, found: 0, left_out: [] },
  };
  const small = countSmallCells(results, fewestRows(read.tables, smallestCell));
  return { ...results, small_cells: { ...results.small_cells, found: small } };
}
