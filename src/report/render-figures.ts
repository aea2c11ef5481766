import {
  balanceFigure,
  type Figure,
  forestFigure,
  missingValuesFigure,
  pairedDistancesFigure,
  returnCurveFigure,
  themes,
} from "../charts/index.js";
import type { Results } from "../study/results.js";
import type { RenderedFigure } from "./context.js";
import { fontFaceCss } from "./font-files.js";
import { renderPng } from "./render-png.js";
import { renderSvg, withStyle } from "./render-svg.js";

/** Dots an inch of the PNG figures: enough for slides and print; the SVG serves anything larger. */
const dotsPerInch = 200;

/**
 * Every figure of a report, drawn: the return curves of each family, the forest of effects, the balance of the groups,
 * and the distances before and after where there are any.
 */
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

interface FamilyFigure {
  readonly family: RenderedFigure["family"];
  readonly figure: Figure;
  readonly groups?: readonly string[];
}

function figuresOf({ curves, effects, cohort, missing, distances, plan }: Results): FamilyFigure[] {
  const theme = themes.screen;
  const grades = curves.find(({ family }) => family === "grade")?.curves ?? [];
  // the usual window of a grade belongs behind a curve only where everybody has that grade
  const grade = grades.length === 1 ? { onlyGrade: grades[0]!.label } : {};
  return [
    ...curves.map((family) => ({
      family: family.family,
      groups: family.curves.map(({ label }) => label),
      figure: returnCurveFigure({ family, plan, ...grade }, theme),
    })),
    { family: "forest", figure: forestFigure({ effects, plan }, theme) },
    { family: "balance", figure: balanceFigure({ cohort, plan }, theme) },
    { family: "missing", figure: missingValuesFigure({ missing, plan }, theme) },
    ...(distances === null || distances.pairs.length === 0
      ? []
      : [{ family: "distances" as const, figure: pairedDistancesFigure({ distances, plan }, theme) }]),
  ];
}

/** A figure as a file of its own, which looks the same wherever it is opened. */
export const standalone = ({ svg }: Pick<RenderedFigure, "svg">): string => withStyle(svg, fontFaceCss());
