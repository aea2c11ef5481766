import type { Results } from "../study/results.js";
import type { RenderedFigure } from "./context.js";
import { figuresOf } from "./figures.js";
import { fontFaceCss } from "./font-files.js";
import { renderPng } from "./render-png.js";
import { renderSvg, withStyle } from "./render-svg.js";

/** Dots an inch of the PNG figures: enough for slides and print; the SVG serves anything larger. */
const dotsPerInch = 200;

/** Every figure of a report, drawn. */
export async function renderFigures(results: Results): Promise<RenderedFigure[]> {
  const rendered: Promise<RenderedFigure>[] = [];
  for (const { family, figure, groups } of figuresOf(results)) {
    const svg = await renderSvg(figure);
    const { id, title, description, spec } = figure;
    const drawn = { id, title, description, spec, family, ...(groups === undefined ? {} : { groups }), svg };
    // pixels are drawn beside the next figure, on another core where there is one
    const whole = renderPng(svg, { dpi: dotsPerInch }).then((png) => ({ ...drawn, png }));
    // a failure is told below, where all are awaited
    whole.catch(() => undefined);
    rendered.push(whole);
  }
  return Promise.all(rendered);
}

/** A figure as a file of its own, which looks the same wherever it is opened. */
export const standalone = ({ svg }: Pick<RenderedFigure, "svg">): string => withStyle(svg, fontFaceCss());
