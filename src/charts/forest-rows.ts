import { measureKeys, measureOf } from "../study/measures/index.js";
import type { Plan } from "../study/plan.js";
import type { EffectResult } from "../study/results.js";
import { measures } from "./forest-measures.js";
import { type GroupNames, groupNames } from "./group-names.js";
import { type GroupStyle, groupStyle } from "./group-style.js";
import { lineHeight } from "./marks.js";
import { estimateWords, weekWords } from "./numbers.js";
import { lines } from "./rough-width.js";
import type { Theme } from "./theme.js";
import { fieldWords, listWords } from "./words.js";

/** One effect as a row of the figure. */
export interface ForestRow {
  readonly effect: EffectResult;
  readonly compared: string;
  readonly reference: string;
  /** Lines of the row's name; none where it is that of the row above. */
  readonly name: readonly string[];
  readonly kind: string;
  readonly n: string;
  readonly estimate: string;
  readonly style: GroupStyle;
  readonly height: number;
}

/** Rows of one measure, in the order given, crude before adjusted. */
export interface ForestBlock {
  readonly measure: EffectResult["measure"];
  readonly rows: readonly ForestRow[];
}

export function forestBlocks(
  { effects, plan }: { effects: readonly EffectResult[]; plan: Plan },
  theme: Theme,
): readonly ForestBlock[] {
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
  effects: readonly EffectResult[],
  { plan, sets, theme }: { plan: Plan; sets: readonly string[]; theme: Theme },
): ForestRow[] {
  const { of } = groupNames(plan.compare.by, plan.compare.groups);
  const names = [...new Set(effects.map(comparisonOf))];
  const groups = [...new Set([...plan.compare.groups, ...effects.map(({ compared }) => compared)])];
  const ordered = names.flatMap((name) => {
    const alike = effects.filter((effect) => comparisonOf(effect) === name);
    return [...alike.filter(isCrude), ...alike.filter((effect) => !isCrude(effect))];
  });
  return ordered.map((effect, index) => {
    const repeated = index > 0 && comparisonOf(ordered[index - 1]!) === comparisonOf(effect);
    const name = repeated
      ? []
      : lines(effectName(effect, of), { width: nameWidth(theme), size: theme.font.small });
    const rowsBelow = ordered.filter((other) => comparisonOf(other) === comparisonOf(effect)).length;
    const shared = Math.ceil(name.length / rowsBelow) * lineHeight(theme.font.small);
    return {
      effect,
      compared: of(effect.compared),
      reference: of(effect.reference),
      name,
      kind: isCrude(effect) ? "crude" : adjustedWords(effect, sets),
      n: `${effect.n.compared} / ${effect.n.reference}`,
      estimate: estimateWords(effect.estimate, measures[effect.measure].number),
      style: groupStyle(groups.indexOf(effect.compared)),
      height: Math.round(Math.max(lineHeight(theme.font.small), shared) + theme.font.small * 0.5),
    };
  });
}

export const nameWidth = ({ font }: Theme): number => font.small * 14.5;

const isCrude = ({ adjusted_for }: EffectResult): boolean => adjusted_for.length === 0;

/** Groups and day: rows that agree in them stand together under one name. */
const comparisonOf = ({ compared, reference, at_day }: EffectResult): string =>
  JSON.stringify([compared, reference, at_day]);

function effectName({ measure, compared, reference, at_day }: EffectResult, of: GroupNames["of"]): string {
  const weeks = at_day === null ? "" : weekWords(at_day / 7);
  const when = { landmark: `, week\u00a0${weeks}`, horizon: `, to week\u00a0${weeks}` };
  const { day } = measureOf(measure);
  return `${of(compared)} against ${of(reference)}${day === null ? "" : when[day]}`;
}

/** The different sets of covariates, in order of appearance. */
export const adjustmentSets = (effects: readonly EffectResult[]): readonly string[] => [
  ...new Set(effects.filter((effect) => !isCrude(effect)).map(setWords)),
];
const setWords = ({ adjusted_for }: EffectResult): string => listWords(adjusted_for.map(fieldWords));

/** With one set of covariates 'adjusted' is enough; several are told apart by a letter. */
const adjustedWords = (effect: EffectResult, sets: readonly string[]): string =>
  sets.length === 1 ? "adjusted" : `adjusted ${setLetter(sets.indexOf(setWords(effect)))}`;
const setLetter = (index: number): string => String.fromCharCode(97 + index);

export const adjustmentNotes = (sets: readonly string[]): string[] =>
  sets.map((set, index) => `${sets.length === 1 ? "Adjusted" : `Adjusted ${setLetter(index)}:`} for ${set}.`);
