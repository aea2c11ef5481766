import type { Results } from "../study/results.js";
import type { RenderedFigure } from "./context.js";
import { figuresOf } from "./figures.js";
import { renderSvg } from "./render-svg.js";

/** What draws pixels where this runs: figureAsPng under Node. */
export interface PixelDrawing {
  readonly drawPng: (svg: string) => Promise<Uint8Array>;
}

/** Every figure of a report, drawn. */
export async function renderFigures(results: Results, { drawPng }: PixelDrawing): Promise<RenderedFigure[]> {
  const rendered: Promise<RenderedFigure>[] = [];
  for (const { family, figure, groups } of figuresOf(results)) {
    const svg = await renderSvg(figure);
    const { id, title, description, spec } = figure;
    const drawn = { id, title, description, spec, family, ...(groups === undefined ? {} : { groups }), svg };
    // pixels are drawn beside the next figure, on another core where there is one
    const whole = drawPng(svg).then((png) => ({ ...drawn, png }));
    // a failure is told below, where all are awaited
    whole.catch(() => undefined);
    rendered.push(whole);
  }
  return Promise.all(rendered);
}
