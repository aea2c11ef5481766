import { labelOf } from "../../schema/labels.js";
import type { EffectResult, Results } from "../../study/results.js";
import { listed } from "../../words/phrases.js";
import { sources } from "../../words/sources.js";
import { entryWords, fieldWords, groupName } from "../../words/terms.js";

/** How groups were compared. */
export function comparisonMethods(results: Results): string[] {
  const { cohort, plan } = results;
  return [
    `Groups by ${labelOf(plan.compare.by)}: ${listed(plan.compare.groups.map((group) => groupName(group, plan.compare.by)))}; reference: ${groupName(plan.compare.reference, plan.compare.by)}.`,
    ...entry(results),
    ...(cohort.rows.length > 0
      ? [`Standardised differences between the groups: ${sources.standardisedDifference}.`]
      : []),
    ...tests(results),
    ...crude(results),
    ...standardised(results),
    ...overTime(results),
    ...hazards(results),
    ...ofSites(results),
  ];
}

const uses = ({ effects }: Results, method: EffectResult["method"]) =>
  effects.filter((effect) => effect.method === method);

function entry({ curves }: Results): string[] {
  const compared = curves.find(({ family }) => family === "compared");
  if (compared?.entry !== "treatment") return [];
  return [
    `${entryWords.treatment} Time before a treatment is thus not counted in its favour (delayed entry: ${sources.delayedEntry}; immortal time: ${sources.immortalTime}). Later treatments do not move an injury to another group.`,
  ];
}

function tests({ tests: all, known_returns }: Results): string[] {
  const methods = new Set(all.map(({ method }) => method));
  const dependent = all.some(({ clustered }) => clustered);
  const stratified = all.find(({ method }) => method === "log_rank_stratified")?.strata ?? [];
  return [
    ...(methods.has("log_rank") && known_returns.path === "days"
      ? [
          `Curves are tested by the log-rank test (${sources.logRank})${stratified.length > 0 ? `, also stratified by ${listed(fieldWords(stratified))}` : ""}${dependent ? `; injuries of one person are taken together (variance summed within persons and corrected by leaving out each person in turn: ${sources.clusters}; ${sources.deletion}), p from an F distribution with degrees of freedom by the number of persons` : ""}.`,
        ]
      : []),
    ...(methods.has("log_rank_permuted")
      ? [
          `Where a group has fewer than five expected returns, the p-value comes from permutation: it is the share of reassignments of the groups to the injuries, or to the people where some have several, that give a difference at least as large (${sources.permuted}); this assumes that all groups were followed alike.`,
        ]
      : []),
    ...(methods.has("proportionality")
      ? [
          `Whether the hazard ratio is constant over time is tested on scaled Schoenfeld residuals (${sources.proportionality}).`,
        ]
      : []),
  ];
}

function crude(results: Results): string[] {
  if (uses(results, "curves").length === 0) return [];
  return [
    `Crude differences in shares: interval recovered from the score limits of each share at its effective sample size (${sources.score}; ${sources.recovered}). Crude differences in mean times: interval by Student\u2019s t with a small-sample factor on the variance (${sources.student}).`,
  ];
}

function standardised(results: Results): string[] {
  const effects = uses(results, "curves_standardised");
  const fields = effects[0]?.adjusted_for ?? [];
  if (effects.length === 0) return [];
  const leftOut = effects.some(({ left_out }) => left_out.length > 0);
  return [
    `Adjusted differences: within each stratum of ${listed(fieldWords(fields))} the difference of the two curves, averaged with the strata in the proportions of both groups together (direct standardisation: ${sources.standardised}). Intervals of shares and of their differences: recovered from the score limits of each stratum at its effective sample size (${sources.score}; ${sources.recoveredOverStrata}); of differences in mean times by Student\u2019s t with a small-sample factor on the variance, which counts one curve for each group in each stratum. Where an interval was found too narrow in simulated cohorts of this size, a note beneath the table says so. Strata with fewer than ${results.plan.compare.smallest_group} injuries in either group, or followed too briefly, are left out${leftOut ? "; they are listed beneath the table of differences" : "; here none is"}.`,
  ];
}

function overTime({ differences_over_time: all, plan }: Results): string[] {
  const banded = all.filter(({ p }) => p !== null);
  if (banded.length === 0) return [];
  return [
    `Differences over time: a band that holds the whole difference, up to the horizon and as far as both groups are followed, with the level of the intervals (${sources.differenceBand}). Its critical value comes from ${banded[0]!.draws} random draws (seed ${plan.seed}) of the influences of all ${banded.some(({ clustered }) => clustered) ? "people, those with several injuries counted once" : "injuries"}, multiplied by Student\u2019s t over the normal quantile; its limits are those of each day at that critical value. The p-value with it asks whether the shares back differ on any of these days.`,
  ];
}

function ofSites({ sites, plan }: Results): string[] {
  if (sites === null) return [];
  const isHeld = plan.compare.adjust_for.includes("site_id");
  return [
    `The rows of ${sites.answers.length} sites were joined and analysed in one stage.${isHeld ? " The site is one of the strata of every adjusted comparison, test and regression." : ""} Intervals count people, who are independent of each other, and not sites as a sample of sites.`,
    ...(sites.without.length > 0
      ? ["Each adjusted comparison was made again without each site in turn; nothing else was changed."]
      : []),
    ...(sites.frailty.length > 0
      ? [
          `A proportional-hazards regression with a gamma frailty shared by the injuries of a site (${sources.frailty}) was fitted beside the stratified one; the test that its variance is 0 is a likelihood-ratio test with p halved (${sources.noFrailty}).`,
        ]
      : []),
  ];
}

function hazards(results: Results): string[] {
  const effects = uses(results, "proportional_hazards");
  if (effects.length === 0 || results.known_returns.path === "spans") return [];
  const fields = [...new Set(effects.flatMap(({ adjusted_for }) => adjusted_for))];
  const clustered = effects.some((effect) => effect.clustered);
  return [
    `Hazard ratios: proportional-hazards regression (${sources.hazards}), ties by Efron\u2019s method (${sources.ties})${fields.length > 0 ? `, crude and adjusted for ${listed(fieldWords(fields))}` : ""}${clustered ? `; variance summed within persons and corrected by leaving out each person in turn (${sources.clusters}; ${sources.deletion}), intervals by Student\u2019s t with degrees of freedom by the number of persons` : ""}.`,
  ];
}
