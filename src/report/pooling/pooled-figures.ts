import type { Figure } from "../../charts/figure.js";
import { pooledCurvesFigure, pooledSitesFigure, themes } from "../../charts/index.js";
import type { PooledResults } from "../../pooling/pooled/index.js";
import { answerShown } from "../../words/pooling/answer-shown.js";
import { mainAnswers } from "../../words/pooling/pooled-plain.js";
import { tableCurvesShown } from "../../words/pooling/table-curves-shown.js";
import type { DrawnFigure } from "../context.js";
import type { Drawing } from "../render-figures.js";
import { renderSvg } from "../render-svg.js";

/** Sites and pooled answer, for each answer that the first page speaks of; ids that groups share get a number. */
export async function pooledFigures(
  results: PooledResults,
  drawing: Drawing,
): Promise<readonly DrawnFigure[]> {
  const shown = mainAnswers(results).map((answer) => answerShown(answer, results));
  const named = shown.map((one, i) => {
    const before = shown.slice(0, i).filter(({ id }) => id === one.id).length;
    return before === 0 ? one : { ...one, id: `${one.id}-${before + 1}` };
  });
  return drawnOf(
    named.map((one) => pooledSitesFigure(one, themes.screen)),
    drawing,
  );
}

/** The curves from risk-set tables: each site's, and those of all injuries together. */
export const tableFigures = (results: PooledResults, drawing: Drawing): Promise<readonly DrawnFigure[]> =>
  drawnOf(
    tableCurvesShown(results).map((shown) => pooledCurvesFigure(shown, themes.screen)),
    drawing,
  );

async function drawnOf(
  figures: readonly Figure[],
  { drawPng, drawSvg = renderSvg }: Drawing,
): Promise<readonly DrawnFigure[]> {
  const drawn: DrawnFigure[] = [];
  for (const figure of figures) {
    const svg = await drawSvg(figure);
    const { id, title, description, spec } = figure;
    drawn.push({ id, title, description, spec, svg, png: await drawPng(svg) });
  }
  return drawn;
}
