import { measureKeys } from "../../study/measures/index.js";
import type { EffectResult, Results } from "../../study/results.js";
import { html, type Safe } from "../escape.js";
import { byDay, capital, level, listed, pValue } from "../format.js";
import { bullets } from "../layout/blocks.js";
import { type Column, noteOf, type Row, table } from "../layout/table.js";
import { intervalWords, unitOfEffect, valueWords } from "../words/estimates.js";
import { holdingEqual } from "../words/holding-equal.js";
import { leftOutWords } from "../words/reasons.js";
import { shortIntervalWords, shownEffect } from "../words/short-intervals.js";
import { fieldWords, groupName } from "../words/terms.js";

/** What an effect measures, in words. */
export function measureWords({ measure, at_day }: Pick<EffectResult, "measure" | "at_day">): string {
  const day = at_day === null ? "" : byDay(at_day);
  return {
    landmark_difference: `Share back by ${day}`,
    restricted_mean_difference: `Mean time to return, up to ${day}`,
    hazard_ratio: "Hazard ratio of return",
    distance_change_difference: "Change of the distance",
  }[measure];
}

/** What the two last columns count: returns among the injuries, or injuries with both readings. */
type Counting = "returns" | "readings";

/** Effects as a table, crude beside adjusted, in the order of the results; one block a comparison. */
export function effectsTable(
  effects: readonly EffectResult[],
  { caption, counting, results }: { caption: string; counting: Counting; results: Results },
): Safe {
  const counts = counting === "returns" ? "Back, of all" : "Injuries";
  const columns: Column[] = [
    { head: "Measure" },
    { head: "Held equal" },
    { head: counting === "returns" ? "Difference or ratio" : "Difference", align: "numbers" },
    { head: `${level(effects[0]?.level ?? 0.95)} interval`, align: "numbers" },
    { head: "p", align: "numbers" },
    { head: `${counts}: compared`, align: "numbers" },
    { head: `${counts}: reference`, align: "numbers" },
  ];
  const { by } = results.plan.compare;
  const comparisons = [...new Set(effects.map((effect) => comparisonOf(effect, by)))];
  return table({
    caption,
    columns,
    groups: comparisons.map((comparison) => ({
      heading: comparison,
      rows: inReadingOrder(effects.filter((effect) => comparisonOf(effect, by) === comparison)).map(
        (effect) => effectRow(effect, counting),
      ),
    })),
    ...noteOf(shortIntervalWords(effects.filter(hasInterval).map(shownEffect), results)),
  });
}

const hasInterval = ({ estimate }: EffectResult): boolean =>
  estimate.lower !== null && estimate.upper !== null;

/** Measure by measure, day by day, crude before adjusted. */
const inReadingOrder = (effects: readonly EffectResult[]): EffectResult[] =>
  [...effects].sort(
    (a, b) =>
      measureKeys.indexOf(a.measure) - measureKeys.indexOf(b.measure) ||
      (a.at_day ?? 0) - (b.at_day ?? 0) ||
      a.adjusted_for.length - b.adjusted_for.length,
  );

/** Names of sites begin as the data begin them. */
function comparisonOf({ compared, reference }: EffectResult, by: string): string {
  const name = groupName(compared, by);
  return `${by === "site_id" ? name : capital(name)} compared with ${groupName(reference, by)}`;
}

function effectRow(effect: EffectResult, counting: Counting): Row {
  const { estimate, n, events, adjusted_for } = effect;
  const unit = unitOfEffect[effect.unit];
  const value = valueWords(estimate, unit);
  return [
    measureWords(effect),
    adjusted_for.length === 0 ? "nothing" : fieldWords(adjusted_for).join(", "),
    effect.main ? html`<strong>${value}</strong>` : value,
    intervalWords(estimate, unit),
    effect.p === null ? "\u2013" : pValue(effect.p),
    counting === "returns" ? `${events.compared} of ${n.compared}` : n.compared,
    counting === "returns" ? `${events.reference} of ${n.reference}` : n.reference,
  ];
}

/** Which strata an adjusted difference leaves out, and why; said once for all effects that leave out the same. */
export function leftOutList(effects: readonly EffectResult[], by: string): Safe | null {
  const sentences = effects
    .filter(({ left_out }) => left_out.length > 0)
    .map(({ compared, reference, adjusted_for, left_out, strata_used }) => {
      const strata = left_out.map(({ stratum, n, reason }) => `${stratum} (${n}): ${leftOutWords[reason]}`);
      const rest = strata_used.length === 0 ? "" : `. What is left: ${listed(strata_used)}`;
      return `${groupName(compared, by)} against ${groupName(reference, by)}, ${holdingEqual(adjusted_for)}: ${strata.join("; ")}${rest}`;
    });
  if (sentences.length === 0) return null;
  return html`<p>Left out of adjusted figures, with the number of injuries:</p>\n${bullets([...new Set(sentences)])}`;
}
