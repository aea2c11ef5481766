import { labelOf } from "../../schema/labels.js";
import type { EffectResult, Results } from "../../study/results.js";
import { listed } from "../format.js";
import { sources } from "../words/sources.js";
import { fieldWords, groupName } from "../words/terms.js";

/** How groups were compared. */
export function comparisonMethods(results: Results): string[] {
  const { cohort, plan } = results;
  return [
    `Groups by ${labelOf(plan.compare.by)}: ${listed(plan.compare.groups.map((group) => groupName(group, plan.compare.by)))}; reference: ${groupName(plan.compare.reference, plan.compare.by)}.`,
    ...entry(results),
    ...(cohort.rows.length > 0 ? [`Standardised differences: ${sources.standardisedDifference}.`] : []),
    ...tests(results),
    ...crude(results),
    ...standardised(results),
    ...hazards(results),
  ];
}

const uses = ({ effects }: Results, method: EffectResult["method"]) =>
  effects.filter((effect) => effect.method === method);

function entry({ curves }: Results): string[] {
  const compared = curves.find(({ family }) => family === "compared");
  if (compared?.entry !== "treatment") return [];
  return [
    `An injury is at risk from the start of its first treatment on (delayed entry: ${sources.delayedEntry}), so that time before a treatment is not counted in its favour (immortal time: ${sources.immortalTime}). Later treatments do not move an injury to another group.`,
  ];
}

function tests({ tests: all }: Results): string[] {
  const methods = new Set(all.map(({ method }) => method));
  const dependent = all.some(({ clustered }) => clustered);
  const stratified = all.find(({ method }) => method === "log_rank_stratified")?.strata ?? [];
  return [
    ...(methods.has("log_rank")
      ? [
          `Curves are tested by the log-rank test (${sources.logRank})${stratified.length > 0 ? `, also stratified by ${listed(fieldWords(stratified))}` : ""}${dependent ? `; injuries of one person are taken together (variance from each person\u2019s influence times what the test loses without that person: ${sources.clusters}; ${sources.deletion}), p by F over persons` : ""}.`,
        ]
      : []),
    ...(methods.has("log_rank_permuted")
      ? [
          `Where a group has fewer than five expected returns, its p-value is the share of ways to deal the groups out over the injuries, or over the people where some have several, that give a difference at least as large (${sources.permuted}); that supposes that all groups were followed alike.`,
        ]
      : []),
    ...(methods.has("proportionality")
      ? [`Whether a ratio is steady over time is tested on scaled residuals (${sources.proportionality}).`]
      : []),
  ];
}

function crude(results: Results): string[] {
  if (uses(results, "product_limit").length === 0) return [];
  return [
    `Crude differences in shares: interval recovered from the score limits of each share on its effective size (${sources.score}; ${sources.recovered}). Crude differences in mean times: interval by Student\u2019s t with a small-sample factor on the variance (${sources.student}).`,
  ];
}

function standardised(results: Results): string[] {
  const effects = uses(results, "product_limit_standardised");
  const fields = effects[0]?.adjusted_for ?? [];
  if (effects.length === 0) return [];
  const leftOut = effects.some(({ left_out }) => left_out.length > 0);
  return [
    `Adjusted differences: within each stratum of ${listed(fieldWords(fields))} the difference of the two product-limit curves, averaged at the mix of the strata in both groups together (direct standardisation: ${sources.standardised}), intervals by Student\u2019s t with a small-sample factor on the variance, one curve counted for each group in each stratum. Where simulated cohorts found an interval short at this number of injuries, a note beneath the table says so. Strata with fewer than ${results.plan.compare.smallest_group} injuries in either group, or followed too briefly, are left out${leftOut ? "; which ones is listed beneath the table of differences" : "; here none is"}.`,
  ];
}

function hazards(results: Results): string[] {
  const effects = uses(results, "proportional_hazards");
  if (effects.length === 0) return [];
  const fields = [...new Set(effects.flatMap(({ adjusted_for }) => adjusted_for))];
  const clustered = effects.some((effect) => effect.clustered);
  return [
    `Hazard ratios: proportional-hazards regression (${sources.hazards}), ties by Efron\u2019s method (${sources.ties})${fields.length > 0 ? `, crude and with ${listed(fieldWords(fields))} held equal` : ""}${clustered ? `; variance from each person\u2019s influence times the change without that person (${sources.clusters}; ${sources.deletion}), intervals by Student\u2019s t over persons` : ""}.`,
  ];
}
