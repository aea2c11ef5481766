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
import { comparedNames } from "../words/figures/group-names.js";
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
  /** Sets of covariates that effects of the measure are adjusted for. */
  readonly sets: readonly string[];
}

export function forestBlocks({ effects: given, plan }: EffectsShown, theme: Theme): readonly ForestBlock[] {
  const effects = inFigureOrder(given);
  return measureKeys
    .map((measure) => {
      const own = effects.filter((effect) => effect.measure === measure);
      const sets = adjustmentSets(own);
      return { measure, rows: rowsOf(own, { plan, sets, theme }), sets };
    })
    .filter(({ rows }) => rows.length > 0);
}

function rowsOf(
  ordered: readonly EffectResult[],
  { plan, sets, theme }: { plan: Plan; sets: readonly string[]; theme: Theme },
): ForestRow[] {
  const { of } = comparedNames(plan);
  const groups = [...new Set([...plan.compare.groups, ...ordered.map(({ compared }) => compared)])];
  return ordered.map((effect, i) => {
    const repeated = i > 0 && comparisonOf(ordered[i - 1]!) === comparisonOf(effect);
    const name = repeated
      ? []
      : lines(effectName(effect, of), { width: nameWidth(theme), size: theme.font.small });
    const rowsBelow = ordered.filter((other) => comparisonOf(other) === comparisonOf(effect)).length;
    const line = lineHeight(theme.font.small);
    const isAbove = theme.names === "above";
    const shared = isAbove ? 0 : Math.ceil(name.length / rowsBelow) * line;
    const above = isAbove ? name.length * line : 0;
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
      style: groupStyle(theme, groups.indexOf(effect.compared)),
      height: Math.round(above + Math.max(estimate.length * line, shared) + theme.font.small * 0.5),
    };
  });
}

/** Room for the estimate; a longer reason is broken. */
const estimateWidth = ({ font, names }: Theme): number => font.small * (names === "above" ? 11 : 15);

/** Room for the name of a comparison: beside its rows, or on lines of its own above them. */
export const nameWidth = ({ font, names, width }: Theme): number =>
  names === "above" ? width - 2 * font.small : font.small * 14.5;
