import { estimandOfEffect } from "../../study/index.js";
import { measureKeys } from "../../study/measures/index.js";
import type { EffectResult, Results } from "../../study/results.js";
import { adjustedFor, adjustmentClause } from "../../words/adjustment.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { comparisonName, measureWords, unitOf } from "../../words/measures.js";
import { pValue } from "../../words/numbers.js";
import { capital, listed } from "../../words/phrases.js";
import { stratumReasons } from "../../words/reasons.js";
import { shortIntervalWords, shownEffect } from "../../words/short-intervals.js";
import { groupName } from "../../words/terms.js";
import { byDay } from "../../words/times.js";
import { html, type Safe } from "../escape.js";
import { bullets } from "../layout/blocks.js";
import { estimandMark } from "../layout/estimand-mark.js";
import { type Column, noteOf, type Row, table } from "../layout/table.js";

/** What the two last columns count: returns among the injuries by the day of the row, or injuries with both readings. */
type Counting = "returns" | "readings";

/** Effects as a table, crude beside adjusted, in the order of the results; one block a comparison. */
export function effectsTable(
  effects: readonly EffectResult[],
  { caption, counting, results }: { caption: string; counting: Counting; results: Results },
): Safe {
  const counts = counting === "returns" ? "Back by then" : "Injuries";
  const columns: Column[] = [
    { head: "Measure" },
    { head: "Adjusted for" },
    { head: counting === "returns" ? "Difference or ratio" : "Difference", align: "numbers" },
    { head: intervalName(effects[0]?.level ?? 0.95), align: "numbers" },
    { head: "p", align: "numbers" },
    { head: `${counts}, compared group`, align: "numbers" },
    { head: `${counts}, reference group`, align: "numbers" },
    ...(counting === "returns" ? [{ head: "Of whom, how counted" }] : []),
  ];
  const { by } = results.plan.compare;
  const comparisons = [...new Set(effects.map((effect) => comparisonOf(effect, by)))];
  return table({
    caption,
    columns,
    groups: comparisons.map((comparison) => ({
      heading: comparison,
      rows: inReadingOrder(effects.filter((effect) => comparisonOf(effect, by) === comparison)).map(
        (effect) => effectRow(effect, { counting, results }),
      ),
    })),
    ...noteOf(
      [
        ...(counting === "returns" ? [countsNote] : []),
        shortIntervalWords(effects.filter(hasInterval).map(shownEffect), results),
      ]
        .filter((words) => words !== "")
        .join(" "),
    ),
  });
}

const countsNote =
  "Back by then: returns observed up to the day of the row, of the injuries that it speaks of. Shares are not these fractions where follow-up of some ended before that day, where treatment began late, or where strata are averaged.";

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
  return comparisonName(by === "site_id" ? name : capital(name), groupName(reference, by));
}

function effectRow(
  effect: EffectResult,
  { counting, results }: { readonly counting: Counting; readonly results: Results },
): Row {
  const { estimate, n, events, adjusted_for } = effect;
  const { compares } = measureWords[effect.measure];
  const unit = unitOf(effect);
  const value = valueWords(estimate, unit);
  return [
    compares(effect.at_day === null ? "" : byDay(effect.at_day)),
    adjustedFor(adjusted_for),
    effect.main ? html`<strong>${value}</strong>` : value,
    intervalWords(estimate, unit),
    effect.p === null ? "\u2013" : pValue(effect.p),
    ...(["compared", "reference"] as const).map((side) =>
      counting === "returns" ? `${events[side]} of ${n[side]}${everWords(effect)}` : n[side],
    ),
    ...(counting === "returns" ? [estimandMark(estimandOfEffect(effect), results)] : []),
  ];
}

/** A row without a day counts the returns of all of the follow-up. */
const everWords = ({ at_day }: EffectResult): string => (at_day === null ? " during follow-up" : "");

/** Which strata an adjusted difference leaves out, and why; said once for all effects that leave out the same. */
export function leftOutList(effects: readonly EffectResult[], by: string): Safe | null {
  const sentences = effects
    .filter(({ left_out }) => left_out.length > 0)
    .map(({ compared, reference, adjusted_for, left_out, strata_used }) => {
      const strata = left_out.map(({ stratum, n, reason }) => `${stratum} (${n}): ${stratumReasons[reason]}`);
      const rest = strata_used.length === 0 ? "" : `. Used: ${listed(strata_used)}`;
      return `${comparisonName(groupName(compared, by), groupName(reference, by))}, ${adjustmentClause(adjusted_for)}: ${strata.join("; ")}${rest}`;
    });
  if (sentences.length === 0) return null;
  return html`<p>Strata left out of adjusted differences, with the number of injuries:</p>\n${bullets([...new Set(sentences)])}`;
}
