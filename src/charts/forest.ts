import type { EffectResult } from "../study/results.js";
import { comparisonOf, type EffectsShown, effectsText, inFigureOrder } from "../words/figures/effects.js";
import { nothingCompared } from "../words/measures.js";
import type { Figure } from "./figure.js";
import { columnsOf } from "./forest-columns.js";
import { forestPanels } from "./forest-panels.js";
import { forestBlocks } from "./forest-rows.js";
import { textAt } from "./marks.js";
import { page, roomBeside } from "./page.js";
import type { Panel } from "./panels.js";
import { type Fitting, inParts } from "./parts.js";
import { lines } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";

/**
 * Differences and ratios between the compared groups, a block and an axis a measure: crude with an open mark, adjusted
 * with a filled one, n and the estimate beside it, and under each axis which side means what.
 *
 * An effect without an estimate says why; a limit beyond the axis ends in an arrow; no effects give a figure that says so.
 */
export const forestFigure = (data: EffectsShown, theme: Theme): Figure => drawn(data, theme).figure;

/** The same on as many pages as it takes where the theme sets their height; a comparison is not torn apart. */
export function forestFigures(data: EffectsShown, theme: Theme): readonly Figure[] {
  if (theme.height === null) return [forestFigure(data, theme)];
  const effects = inFigureOrder(data.effects);
  const keyOf = (effect: EffectResult) => `${effect.measure} ${comparisonOf(effect)}`;
  const comparisons = [...new Set(effects.map(keyOf))].map((key) =>
    effects.filter((effect) => keyOf(effect) === key),
  );
  return inParts(comparisons, (some) => drawn({ ...data, effects: some.flat() }, theme));
}

function drawn(data: EffectsShown, theme: Theme): Fitting {
  const blocks = forestBlocks(data, theme);
  const columns = columnsOf(blocks, data.plan, theme);
  const panels = blocks.length > 0 ? forestPanels(blocks, { columns, theme }) : [nothing(theme)];
  const [text, layout] = [effectsText(data), { margins: columns.margins, theme }];
  return { figure: page(text, panels, layout), fits: roomBeside(panels, text, layout) >= 0 };
}

function nothing(theme: Theme): Panel {
  const { font } = theme;
  return {
    height: 6 * font.base,
    layers: [
      textAt({
        x: 0,
        y: 3 * font.base,
        text: lines(nothingCompared, { width: theme.width / 2, size: font.base }),
        size: font.base,
        colour: ink.muted,
      }),
    ],
  };
}
