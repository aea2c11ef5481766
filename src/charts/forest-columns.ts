import type { Plan } from "../study/plan.js";
import { estimateTitle as titleOfEstimates } from "../words/figures/effects.js";
import { type ForestBlock, nameWidth } from "./forest-rows.js";
import type { Margins } from "./page.js";
import { roughWidth } from "./rough-width.js";
import type { Theme } from "./theme.js";

/** Where the columns begin, in pixels from the start of the plots. */
export interface ForestColumns {
  readonly margins: Margins;
  readonly width: number;
  readonly name: number;
  readonly kind: number;
  /** The middle of the column. */
  readonly n: number;
  readonly estimate: number;
  readonly estimateTitle: string;
}

export function columnsOf(blocks: readonly ForestBlock[], plan: Plan, theme: Theme): ForestColumns {
  const { small } = theme.font;
  const rows = blocks.flatMap((block) => block.rows);
  const widest = (texts: readonly string[]) => Math.max(...texts.map((text) => roughWidth(text, small)));
  const estimateTitle = titleOfEstimates(plan);
  const beside = Math.min(nameWidth(theme), widest(["", ...rows.flatMap((row) => row.name)])) + small;
  const name = theme.names === "above" ? 0 : beside;
  const kind = widest(["crude", ...rows.map((row) => row.kind)]);
  const n = widest(["n / n", ...rows.map((row) => row.n)]);
  const left = small + name + kind + small + n + small;
  const right =
    small * 1.5 +
    Math.max(roughWidth(estimateTitle, small, "bold"), widest(["", ...rows.flatMap((row) => row.estimate)])) +
    small;
  const margins = { left: Math.round(left), right: Math.round(right) };
  const width = theme.width - margins.left - margins.right;
  return {
    margins,
    width,
    name: small - margins.left,
    kind: small + name - margins.left,
    n: -small - n / 2,
    estimate: width + small * 1.5,
    estimateTitle,
  };
}
