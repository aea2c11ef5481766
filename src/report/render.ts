import { jsonText } from "../schema/json-text.js";
import { type Results, resultsSchema } from "../study/results.js";
import { abstractText } from "./abstract.js";
import type { DrawnFigure, RenderedFigure } from "./context.js";
import { type PageInput, renderPage } from "./page.js";
import { withStyle } from "./render-svg.js";
import type { ReportFile } from "./report-file.js";
import { markedName, tableFiles } from "./tables.js";

/**
 * The report's folder as files: check the results, then the page, the tables, the figures, the results.
 * The same input gives the same bytes, in the same order.
 *
 * @param input results of a run; figures as they were drawn; version of the toolkit; style rules with the fonts;
 *   `sha256` giving the digest of a text in hexadecimal digits
 * @throws Error when the results don't have the agreed form, a figure is no drawing or two figures share an id
 */
export async function renderReport(input: PageInput): Promise<ReportFile[]> {
  const results = checkedResults(input.results);
  checkFigures(input.figures);
  return [
    { path: "report.html", content: await renderPage({ ...input, results }) },
    { path: "abstract.md", content: abstractText(results) },
    ...tableFiles(results),
    ...input.figures.flatMap((figure) =>
      figureFiles(figure, { fontCss: input.fontCss, synthetic: results.plan.synthetic }),
    ),
    { path: "results.json", content: jsonText(results) },
  ];
}

/** Text of the results with their keys in the order of the schema, so that reading and writing changes nothing. */
export const resultsText = (results: Results): string => jsonText(checkedResults(results));

function checkedResults(results: Results): Results {
  const checked = resultsSchema.safeParse(results);
  if (checked.success) return checked.data;
  const found = checked.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
  throw new Error(`The results don't have the agreed form, so no report is written: ${found.join("; ")}`);
}

function checkFigures(figures: readonly RenderedFigure[]): void {
  const ids = figures.map(({ id }) => id);
  const odd = ids.find((id) => !/^[a-z0-9][a-z0-9-]*$/.test(id));
  if (odd !== undefined)
    throw new Error(
      `figure id "${odd}": small letters, digits and hyphens are expected, since it names files`,
    );
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined) throw new Error(`figure id "${twice}" is there twice; each figure needs its own`);
}

/** A figure as files: drawing, picture and specification. */
export function figureFiles(
  { id, svg, png, spec }: DrawnFigure,
  { fontCss, synthetic }: Pick<PageInput, "fontCss"> & { readonly synthetic: boolean },
): ReportFile[] {
  const path = `figures/${markedName(id, synthetic)}`;
  return [
    { path: `${path}.svg`, content: `${withStyle(svg, fontCss)}\n` },
    ...(png === null ? [] : [{ path: `${path}.png`, content: png }]),
    { path: `${path}.vl.json`, content: jsonText(spec) },
  ];
}
