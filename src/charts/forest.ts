import type { Plan } from "../study/plan.js";
import type { EffectResult } from "../study/results.js";
import type { Figure } from "./figure.js";
import { columnsOf } from "./forest-columns.js";
import { measures } from "./forest-measures.js";
import { forestPanels } from "./forest-panels.js";
import { adjustmentNotes, adjustmentSets, type ForestBlock, forestBlocks } from "./forest-rows.js";
import { groupNames } from "./group-names.js";
import { textAt } from "./marks.js";
import { type PageText, type Panel, page } from "./page.js";
import { ink, type Theme } from "./theme.js";
import { caution, levelWords, milestoneWords } from "./words.js";

export interface ForestData {
  /** All are drawn; choose before, for example those that are `main`. */
  readonly effects: readonly EffectResult[];
  readonly plan: Plan;
}

/**
 * Differences and ratios between the compared groups, a block and an axis a measure: crude with an open mark, adjusted
 * with a filled one, n and the estimate beside it, and under each axis which side means what.
 *
 * An effect without an estimate says why; a limit beyond the axis ends in an arrow; no effects give a figure that says so.
 */
export function forestFigure(data: ForestData, theme: Theme): Figure {
  const blocks = forestBlocks(data, theme);
  const columns = columnsOf(blocks, data.plan, theme);
  const panels = blocks.length > 0 ? forestPanels(blocks, { columns, theme }) : [nothing(theme)];
  return page(textOf(data, blocks), panels, { margins: columns.margins, theme });
}

function textOf({ effects, plan }: ForestData, blocks: readonly ForestBlock[]): PageText {
  const title = `Do the groups differ in time to ${milestoneWords(plan)}?`;
  const subtitle = `estimates with ${levelWords(plan.confidence_level)} intervals`;
  const rows = blocks.flatMap(({ measure, rows }) =>
    rows.map(({ effect, kind, estimate }) => {
      const groups = `${effect.compared} against ${effect.reference}`;
      const n = `n ${effect.n.compared} and ${effect.n.reference}`;
      const when = effect.at_day === null ? "" : `, day ${effect.at_day}`;
      return `${measures[measure].title}, ${groups}${when}, ${kind}: ${estimate} (${n}).`;
    }),
  );
  return {
    id: "effects",
    title,
    subtitle,
    description: [`${title} Estimates with ${levelWords(plan.confidence_level)} intervals.`, ...rows].join(
      " ",
    ),
    notes: [
      "Open marks: crude; filled marks: adjusted.",
      ...adjustmentNotes(adjustmentSets(effects)),
      "An interval across the vertical line cannot tell from no difference.",
      ...groupNames(plan.compare.by, plan.compare.groups).notes,
      caution,
    ],
    synthetic: plan.synthetic,
    individual: false,
  };
}

function nothing({ font }: Theme): Panel {
  const text = "No effect to show: fewer than two groups could be compared.";
  return {
    height: 6 * font.base,
    layers: [textAt({ x: 0, y: 3 * font.base, text, size: font.base, colour: ink.muted })],
  };
}
