import { estimandOfFamily } from "../estimands.js";
import type { ExactResults } from "../exact-results.js";
import type { CurveFamily, Results } from "../results.js";
import { distancesWithout, effectsWithout, testsWithout } from "./comparisons.js";
import { type Counting, countingOf } from "./counting.js";
import { coarseCurve } from "./curves.js";
import { describedWithout } from "./described.js";
import type { Fewest } from "./fewest.js";
import { accountWithout, followUpWithout, knownWithout, lostWithout, missingWithout } from "./rows.js";
import { warningsWithout } from "./warnings.js";

/** Fewer people than this behind a count make a small cell, where nothing else is said: our choice. */
export const usualSmallestCell = 5;

/**
 * The results without any small cell: a count behind which there are fewer people than that is left out,
 * every other count is rounded to a multiple of it, curves step where enough came back, single injuries are not told, and
 * figures have so few digits that no group is found by subtracting the others from the whole.
 *
 * @param results as they were computed
 * @param fewest from how many rows on a count is told
 * @returns results of the same form; the same input gives the same results
 */
export const withoutSmallCells = (results: ExactResults, fewest: Fewest): Results =>
  settled(results, fewest).results;

/** How many cells of the results, as they were computed, are small. */
export const countSmallCells = (results: ExactResults, fewest: Fewest): number =>
  settled(results, fewest).found;

function settled(results: ExactResults, fewest: Fewest): { results: Results; found: number } {
  const counting = countingOf(fewest);
  const { cohort, distances } = results;
  const { families, gone } = familiesWithout(results, counting);
  const follow_up = followUpWithout(results.follow_up, counting);
  const told: Results = {
    ...results,
    ...accountWithout(results, { counting, fewest }),
    // most of it counts few
    target_trial: null,
    cohort: {
      ...cohort,
      groups: cohort.groups.map(({ label, n }) => ({ label, n: counting.told(n) })),
      overall: counting.told(cohort.overall),
      rows: describedWithout(cohort.rows, counting),
    },
    follow_up,
    known_returns: knownWithout(results.known_returns, counting),
    missing: missingWithout(results.missing, counting),
    lost: lostWithout(results.lost, counting),
    loss_bounds: null,
    definitions: definitionsWithout(results.definitions, counting),
    curves: families,
    sites: null,
    // beside the curves of the groups they would tell of the few who are in neither
    within: null,
    differences_over_time: [],
    after_return: null,
    estimands: estimandsWithout(results.estimands, { families, counting }),
    tests: testsWithout(results.tests, counting),
    effects: effectsWithout(results.effects, { curves: families, counting }),
    distances: distances === null ? null : distancesWithout(distances, counting),
    warnings: warningsWithout(results.warnings, { counting, completeness: follow_up.completeness }),
    small_cells: {
      choice: "leave-out",
      smallest: fewest.people,
      found: null,
      left_out: [
        ...gone,
        ...(results.after_return === null ? [] : ["what came after the return"]),
        ...(results.target_trial === null ? [] : ["what came before and after the first treatment"]),
        ...(results.loss_bounds === null ? [] : ["worst and best cases of those lost to follow-up"]),
        ...(results.definitions === null ? [] : ["groups within each definition of the return"]),
        ...(results.sites === null ? [] : ["each site's own answer, and the answer without each site"]),
        ...(results.differences_over_time.length === 0 ? [] : ["differences over time"]),
        ...(results.within === null ? [] : ["groups within each value of a field"]),
        ...(results.curves.some(({ curves }) => curves.some(({ other_ends }) => other_ends.length > 0))
          ? ["shares that gave up or came to another end"]
          : []),
        ...(distances === null ? [] : ["distances injury by injury"]),
        "rows by their number",
        "returns seen and expected in tests",
        "standard errors",
      ],
    },
  };
  return { results: told, found: counting.found() };
}

/** What each site means; beside the curves of the definitions their groups would tell of the few who are in neither. */
const definitionsWithout = (
  definitions: ExactResults["definitions"],
  { told }: Counting,
): Results["definitions"] =>
  definitions === null
    ? null
    : {
        ...definitions,
        rows: definitions.rows.map((row) => ({ ...row, n: told(row.n), cells: [], effects: [] })),
      };

/** The estimands of the figures that are still there. */
function estimandsWithout(
  estimands: ExactResults["estimands"],
  { families, counting }: { readonly families: readonly CurveFamily[]; readonly counting: Counting },
): Results["estimands"] {
  const curves = new Set(families.map(estimandOfFamily));
  return estimands
    .filter(({ id, figure }) =>
      figure === "shares_and_times"
        ? curves.has(id)
        : figure !== "shares_within" && figure !== "states_after_return",
    )
    .map((one) => ({ ...one, groups: one.groups.map(({ label, n }) => ({ label, n: counting.told(n) })) }));
}

/** A model by its law; that somebody came to another end is told nowhere else. */
const modelWithout = (
  model: CurveFamily["model"],
  { rounded, roundedEstimate }: Counting,
): CurveFamily["model"] =>
  model === null
    ? null
    : {
        ...model,
        aic: rounded(model.aic, "other"),
        laws: model.laws.map(({ law, aic }) => ({ law, aic: rounded(aic, "other") })),
        other_ends: [],
        time_ratios: model.time_ratios.map(({ ratio, p, ...groups }) => ({
          ...groups,
          ratio: roundedEstimate(ratio, "other"),
          p: rounded(p, "other"),
        })),
      };

/** Curves that may be told; families like for like only with both curves. */
function familiesWithout(
  { curves, plan }: ExactResults,
  counting: Counting,
): { families: CurveFamily[]; gone: string[] } {
  const options = { mainWeek: plan.main_landmark_weeks, counting };
  const gone: string[] = [];
  const families = curves.flatMap((family): CurveFamily[] => {
    const made = family.curves.map((curve) => ({ name: curve.id, curve: coarseCurve(curve, options) }));
    const kept = made.flatMap(({ curve }) => curve ?? []);
    gone.push(...made.filter(({ curve }) => curve === null).map(({ name }) => `curve ${name}`));
    const isWhole = kept.length === made.length || family.family !== "standardised";
    const model = modelWithout(family.model, counting);
    return kept.length > 0 && isWhole ? [{ ...family, model, curves: kept }] : [];
  });
  return { families, gone };
}
