import { measureKeys } from "../study/measures/index.js";
import type { Plan } from "../study/plan.js";
import type { EffectResult } from "../study/results.js";
import { estimateWords } from "../words/estimates.js";
import {
  adjustmentSets,
  comparisonOf,
  type EffectsShown,
  effectName,
  inFigureOrder,
  kindWords,
} from "../words/figures/effects.js";
import { groupNames } from "../words/figures/group-names.js";
import { unitOf } from "../words/measures.js";
import { type GroupStyle, groupStyle } from "./group-style.js";
import { lineHeight } from "./marks.js";
import { lines } from "./rough-width.js";
import type { Theme } from "./theme.js";

/** One effect as a row of the figure. */
export interface ForestRow {
  readonly effect: EffectResult;
  readonly compared: string;
  readonly reference: string;
  /** Lines of the row's name; none where it is that of the row above. */
  readonly name: readonly string[];
  readonly kind: string;
  readonly n: string;
  /** Lines of the estimate with its interval, or of the reason why there is none. */
  readonly estimate: readonly string[];
  readonly style: GroupStyle;
  readonly height: number;
}

/** Rows of one measure, in the order given, crude before adjusted. */
export interface ForestBlock {
  readonly measure: EffectResult["measure"];
  readonly rows: readonly ForestRow[];
}

export function forestBlocks({ effects: given, plan }: EffectsShown, theme: Theme): readonly ForestBlock[] {
  const effects = inFigureOrder(given);
  const sets = adjustmentSets(effects);
  return measureKeys
    .map((measure) => ({
      measure,
      rows: rowsOf(
        effects.filter((effect) => effect.measure === measure),
        { plan, sets, theme },
      ),
    }))
    .filter(({ rows }) => rows.length > 0);
}

function rowsOf(
  ordered: readonly EffectResult[],
  { plan, sets, theme }: { plan: Plan; sets: readonly string[]; theme: Theme },
): ForestRow[] {
  const { of } = groupNames(plan.compare.by, plan.compare.groups);
  const groups = [...new Set([...plan.compare.groups, ...ordered.map(({ compared }) => compared)])];
  return ordered.map((effect, i) => {
    const repeated = i > 0 && comparisonOf(ordered[i - 1]!) === comparisonOf(effect);
    const name = repeated
      ? []
      : lines(effectName(effect, of), { width: nameWidth(theme), size: theme.font.small });
    const rowsBelow = ordered.filter((other) => comparisonOf(other) === comparisonOf(effect)).length;
    const shared = Math.ceil(name.length / rowsBelow) * lineHeight(theme.font.small);
    const estimate = lines(estimateWords(effect.estimate, unitOf(effect)), {
      width: estimateWidth(theme),
      size: theme.font.small,
    });
    return {
      effect,
      compared: of(effect.compared),
      reference: of(effect.reference),
      name,
      kind: kindWords(effect, sets),
      n: `${effect.n.compared} / ${effect.n.reference}`,
      estimate,
      style: groupStyle(groups.indexOf(effect.compared)),
      height: Math.round(
        Math.max(estimate.length * lineHeight(theme.font.small), shared) + theme.font.small * 0.5,
      ),
    };
  });
}

/** Room for the estimate; a longer reason is broken. */
const estimateWidth = ({ font }: Theme): number => font.small * 15;

export const nameWidth = ({ font }: Theme): number => font.small * 14.5;
