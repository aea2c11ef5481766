import { labelOf } from "../../schema/labels.js";
import { type MeasureKey, measureKeys, measureOf, sideOf } from "../../study/measures/index.js";
import type { EffectResult, Results } from "../../study/results.js";
import { adjustmentClause } from "../../words/adjustment.js";
import { intervalName } from "../../words/estimates.js";
import { unitOf } from "../../words/measures.js";
import { capital, listed } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { mayBeTooNarrow, measuredFor, shownEffect } from "../../words/short-intervals.js";
import { fieldWords } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { digitsOf, extraDecimals, type Unit } from "../../words/units.js";
import { type EffectPair, mainEffects } from "./story.js";

/** How a difference of one measure is said in the plain words. */
interface Manner {
  readonly noun: (digits: string) => string;
  readonly above: string;
  readonly below: string;
  /** The clause: how much, which way, between whom. */
  readonly clause: (parts: { much: string; way: string; pair: EffectPair; plan: Results["plan"] }) => string;
  readonly same: (parts: { pair: EffectPair; plan: Results["plan"] }) => string;
  readonly what: string;
  /** The first measure told says how many it speaks for and whether the crude figure points the other way. */
  readonly told: "in full" | "in short";
}

const shareBack: Manner = {
  noun: (digits) => (digits === "1" ? "percentage point" : "percentage points"),
  above: "more",
  below: "fewer",
  clause: ({ much, way, pair, plan }) =>
    `${much} ${way} were back by ${weeks(plan.main_landmark_weeks)} ${pair.compared.among} than ${pair.reference.among}`,
  same: ({ pair, plan }) =>
    `the share back by ${weeks(plan.main_landmark_weeks)} was the same ${pair.compared.among} as ${pair.reference.among}`,
  what: "the share back",
  told: "in full",
};

const meanTime: Manner = {
  noun: (digits) => (digits === "1" ? "day" : "days"),
  above: "longer",
  below: "shorter",
  clause: ({ much, way, pair, plan }) =>
    `the mean time to return, counted up to ${weeks(plan.horizon_weeks)}, was ${much} ${way} ${pair.compared.among} than ${pair.reference.among}`,
  same: ({ pair, plan }) =>
    `the mean time to return, counted up to ${weeks(plan.horizon_weeks)}, was the same ${pair.compared.among} as ${pair.reference.among}`,
  what: "the mean time to return",
  told: "in short",
};

/** The measures that the plain words speak of, each a difference; null for those that stand in tables and figures alone. */
const manners: Readonly<Record<MeasureKey, Manner | null>> = {
  landmark_difference: shareBack,
  restricted_mean_difference: meanTime,
  hazard_ratio: null,
  distance_change_difference: null,
};

/**
 * The main difference of each comparison, measure by measure, adjusted where it could be. A measure told in short is silent
 * where there is no figure, since the one told in full has said why.
 */
export const differenceSentences = (results: Results): string[] =>
  measureKeys.flatMap((measure) => {
    const manner = manners[measure];
    if (manner === null) return [];
    return mainEffects(results, measure)
      .filter(
        ({ adjusted, crude }) => manner.told === "in full" || (adjusted ?? crude)?.estimate.value != null,
      )
      .flatMap((pair) => pairSentences(pair, results, manner));
  });

function pairSentences(pair: EffectPair, results: Results, manner: Manner): string[] {
  const { adjusted, crude } = pair;
  const first = adjusted ?? crude;
  if (first === null) return [];
  if (first.estimate.value !== null)
    return [differenceSentence(first, pair, results, manner), ...otherWay(pair, manner)];
  const missing =
    `A difference in ${manner.what} between injuries ${pair.compared.of} and ${pair.reference.of}` +
    `${first.adjusted_for.length > 0 ? `, ${adjustmentClause(first.adjusted_for)},` : ""} cannot be given: ${reasonWords(first.estimate.reason)}.`;
  if (adjusted === null || crude === null || crude.estimate.value === null) return [missing];
  const fields = listed(fieldWords(adjusted.adjusted_for));
  return [
    missing,
    `${differenceSentence(crude, pair, results, manner).slice(0, -1)}; it may come from ${fields} as well as from the ${labelOf(results.plan.compare.by)}.`,
  ];
}

/** Where the crude figure points the other way, a reader who compares the shares must be told why they do not match. */
function otherWay({ adjusted, crude }: EffectPair, manner: Manner): string[] {
  if (manner.told === "in short" || adjusted === null || crude === null) return [];
  const [held, free] = [sideOfEffect(adjusted), sideOfEffect(crude)];
  if (held === free || held === "none" || free === "none") return [];
  const digits = sizeOf(crude.estimate.value!, unitOf(crude));
  const way = manner[free];
  const fields = listed(fieldWords(adjusted.adjusted_for));
  return [
    `Without adjustment for ${fields}${withAll(adjusted, crude)} it is ${digits} ${manner.noun(digits)} ${way}: the groups differ in ${fields}.`,
  ];
}

/** Of how many the crude figure speaks, where the adjusted one leaves some out. */
const withAll = ({ left_out }: EffectResult, { n }: EffectResult): string =>
  left_out.length === 0 ? "" : `, with all ${n.compared} and ${n.reference} injuries,`;

/** On which side of no difference an estimate lies; on none where there is no estimate. */
function sideOfEffect({ measure, estimate }: EffectResult): ReturnType<typeof sideOf> {
  return estimate.value === null ? "none" : sideOf(estimate.value, measureOf(measure));
}

/** Up to this many strata are named. */
const namedStrata = 4;

/** On which strata and how many injuries an adjusted figure rests, where it cannot use them all. */
function among({ left_out, n, strata_used }: EffectResult): string {
  if (left_out.length === 0) return "";
  const injuries = `${n.compared} and ${n.reference} injuries`;
  return strata_used.length === 0 || strata_used.length > namedStrata
    ? `, in the ${injuries} for which that is possible`
    : `, in ${listed(strata_used)} alone (${injuries})`;
}

function differenceSentence(
  effect: EffectResult,
  pair: EffectPair,
  results: Results,
  manner: Manner,
): string {
  const { plan } = results;
  const side = sideOfEffect(effect);
  const digits = sizeOf(effect.estimate.value!, unitOf(effect));
  const held =
    capital(adjustmentClause(effect.adjusted_for)) + (manner.told === "in full" ? among(effect) : "");
  const clause =
    side === "none"
      ? manner.same({ pair, plan })
      : manner.clause({
          much: `${digits} ${manner.noun(digits)}`,
          way: manner[side],
          pair,
          plan,
        });
  return `${held}, ${clause} (${bracket(effect, manner)}${knownShort(effect, results)}), ${verdict(effect, labelOf(plan.compare.by))}.`;
}

/** Said where intervals of this kind were found too narrow with so few injuries. */
function knownShort(effect: EffectResult, results: Results): string {
  const { lower, upper } = effect.estimate;
  if (lower === null || upper === null) return "";
  return measuredFor(shownEffect(effect), results) === null ? "" : `; ${mayBeTooNarrow}`;
}

/** A difference in the share back that another reading of the data would give: "14 percentage points more would be back by 13 weeks ...". */
export function supposedShares(
  effect: Pick<EffectResult, "estimate" | "level">,
  { plan, ...pair }: Pick<EffectPair, "compared" | "reference"> & Pick<Results, "plan">,
): string {
  const whole = { ...effect, measure: "landmark_difference" } as const;
  if (effect.estimate.value === null)
    return `no difference could be given: ${reasonWords(effect.estimate.reason)}`;
  const side = sideOf(effect.estimate.value, measureOf(whole.measure));
  const digits = sizeOf(effect.estimate.value, "percentage points");
  const by = `by ${weeks(plan.main_landmark_weeks)}`;
  const clause =
    side === "none"
      ? `the share back ${by} would be the same ${pair.compared.among} as ${pair.reference.among}`
      : `${digits} ${shareBack.noun(digits)} ${shareBack[side]} would be back ${by} ${pair.compared.among} than ${pair.reference.among}`;
  return `${clause} (${bracket(whole, shareBack)})`;
}

/** "95 % interval 4 fewer to 32 more", or why there is none. */
function bracket(effect: Pick<EffectResult, "estimate" | "level" | "measure">, manner: Manner): string {
  const { lower, upper, reason } = effect.estimate;
  const side = (limit: number) => {
    const where = sideOf(limit, measureOf(effect.measure));
    return where === "none" ? "0" : `${sizeOf(limit, unitOf(effect))} ${manner[where]}`;
  };
  if (lower === null && upper === null) return `no interval: ${reasonWords(reason)}`;
  const name = intervalName(effect.level);
  if (lower === null) return `${name} up to ${side(upper!)}; no lower limit`;
  if (upper === null) return `${name} from ${side(lower)}; no upper limit`;
  return `${name} ${side(lower)} to ${side(upper)}`;
}

/** The size without its sign, in whole numbers unless that would hide a difference. */
function sizeOf(value: number, unit: Unit): string {
  const size = Math.abs(value);
  const fewer = unit === "days" ? -1 : 0;
  const plain = digitsOf(size, { unit, extra: fewer });
  return size > 0 && plain === "0"
    ? digitsOf(size, { unit, extra: fewer + Math.max(1, extraDecimals([size], unit)) })
    : plain;
}

/** What may be said: never "no difference", never "caused". */
function verdict({ measure, estimate: { lower, upper } }: EffectResult, by: string): string {
  const facts = measureOf(measure);
  const isWhole = lower !== null && upper !== null;
  if (isWhole && (sideOf(lower, facts) === "above" || sideOf(upper, facts) === "below"))
    return `a difference associated with the ${by} but not shown to be caused by it`;
  return "which these data cannot tell from no difference";
}
