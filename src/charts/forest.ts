import { type EffectsShown, effectsText } from "../words/figures/effects.js";
import { nothingCompared } from "../words/measures.js";
import type { Figure } from "./figure.js";
import { columnsOf } from "./forest-columns.js";
import { forestPanels } from "./forest-panels.js";
import { forestBlocks } from "./forest-rows.js";
import { textAt } from "./marks.js";
import { page } from "./page.js";
import type { Panel } from "./panels.js";
import { ink, type Theme } from "./theme.js";

/**
 * Differences and ratios between the compared groups, a block and an axis a measure: crude with an open mark, adjusted
 * with a filled one, n and the estimate beside it, and under each axis which side means what.
 *
 * An effect without an estimate says why; a limit beyond the axis ends in an arrow; no effects give a figure that says so.
 */
export function forestFigure(data: EffectsShown, theme: Theme): Figure {
  const blocks = forestBlocks(data, theme);
  const columns = columnsOf(blocks, data.plan, theme);
  const panels = blocks.length > 0 ? forestPanels(blocks, { columns, theme }) : [nothing(theme)];
  return page(effectsText(data), panels, { margins: columns.margins, theme });
}

function nothing({ font }: Theme): Panel {
  return {
    height: 6 * font.base,
    layers: [textAt({ x: 0, y: 3 * font.base, text: nothingCompared, size: font.base, colour: ink.muted })],
  };
}
