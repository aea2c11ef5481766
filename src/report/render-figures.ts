import type { Figure } from "../charts/figure.js";
import type { Results } from "../study/results.js";
import type { RenderedFigure } from "./context.js";
import { figuresOf } from "./figures.js";
import { renderSvg } from "./render-svg.js";

/** What draws where this runs. */
export interface Drawing {
  /** Draws pixels: figureAsPng under Node. */
  readonly drawPng: (svg: string) => Promise<Uint8Array>;
  /** Draws a figure as renderSvg does, which is called where this is not given: perhaps beside whatever else is done. */
  readonly drawSvg?: (figure: Figure) => Promise<string>;
}

/** Every figure of a report, drawn. */
export async function renderFigures(
  results: Results,
  { drawPng, drawSvg = renderSvg }: Drawing,
): Promise<RenderedFigure[]> {
  // pixels are drawn beside the next figure, on another core where there is one
  const drawn = figuresOf(results).map(async ({ family, figure, groups }) => {
    const svg = await drawSvg(figure);
    const { id, title, description, spec } = figure;
    const named = { id, title, description, spec, family, ...(groups === undefined ? {} : { groups }) };
    return { ...named, svg, png: await drawPng(svg) };
  });
  return Promise.all(drawn);
}
