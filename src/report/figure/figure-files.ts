import { greyOf } from "../../charts/colours.js";
import type { Figure, Theme } from "../../charts/index.js";
import type { Results } from "../../study/results.js";
import { type FigureFamily, figuresOf } from "../figures.js";
import { withStyle } from "../render-svg.js";
import type { ReportFile } from "../report-file.js";
import { markedName } from "../tables.js";
import { captionFile } from "./caption.js";
import { ChoiceError, notAmong } from "./choice-error.js";
import { type ChosenResults, chosenResults } from "./choose.js";
import type { FigureSettings } from "./figure-settings.js";
import { themeOf } from "./theme-of.js";

/** A figure of a report that can be drawn. */
export interface ListedFigure {
  readonly id: string;
  readonly title: string;
}

/** What draws where this runs. */
export interface FigureDrawing {
  readonly drawSvg: (figure: Figure) => Promise<string>;
  readonly drawPng: (svg: string, options: { readonly dpi: number }) => Promise<Uint8Array>;
  readonly drawPdf: (svg: string, figure: Figure) => Promise<Uint8Array>;
  readonly fontCss: string;
  /** Hears before each figure which one it is. */
  readonly progress: (title: string) => void;
}

/** The figures of a report by their ids. */
export const listedFigures = (results: Results): readonly ListedFigure[] =>
  figuresOf(results).map(({ figure: { id, title } }) => ({ id, title }));

/**
 * Draws figures from the results of a finished report; nothing is computed anew. Each figure comes as the files that were asked
 * for, with its caption beside it. The same results and settings give the same bytes.
 *
 * @throws ChoiceError where a figure or a group does not exist, naming those that do
 */
export async function figureFiles(
  results: Results,
  settings: FigureSettings,
  drawing: FigureDrawing,
): Promise<ReportFile[]> {
  const chosen = chosenResults(results, settings);
  const files: ReportFile[] = [];
  for (const one of wanted(chosen, { settings, theme: themeOf(settings), all: listedFigures(results) })) {
    drawing.progress(one.figure.title);
    files.push(...(await filesOf(one, { results: chosen, settings, drawing })));
  }
  return files;
}

interface Wanted {
  readonly figure: Figure;
  readonly family: FigureFamily;
}

function wanted(
  results: ChosenResults,
  { settings, theme, all }: { settings: FigureSettings; theme: Theme; all: readonly ListedFigure[] },
): readonly Wanted[] {
  const known = all.map(({ id }) => id);
  const ids = settings.figures ?? known;
  const missing = ids.find((id) => !known.includes(id));
  if (missing !== undefined) throw notAmong({ text: missing, what: "figure" }, known);
  const drawn = figuresOf(results, theme);
  // on a slide a figure may go on to further ones, which are numbered after it
  const found = ids.map((id) => ({
    id,
    parts: drawn.filter(({ figure }) => figure.id === id || figure.id.startsWith(`${id}-part-`)),
  }));
  const empty = found.find(({ parts }) => parts.length === 0);
  if (empty !== undefined && settings.figures !== undefined)
    throw new ChoiceError(
      `The figure "${empty.id}" shows none of the groups that were chosen.\n  Leave the groups out, or choose those it compares.`,
    );
  const figures = found.flatMap(({ parts }) => parts);
  if (settings.title !== undefined && new Set(figures.map(({ family }) => family)).size > 1)
    throw new ChoiceError(
      `A title of your own is for one figure, and ${figures.length} would be drawn.\n  Name the figure (figures: one of ${known.join(", ")}).`,
    );
  return figures;
}

async function filesOf(
  { figure, family }: Wanted,
  {
    results,
    settings,
    drawing,
  }: { results: ChosenResults; settings: FigureSettings; drawing: FigureDrawing },
): Promise<ReportFile[]> {
  const name = `${markedName(figure.id, results.plan.synthetic)}-${settings.for}`;
  const drawn = await drawing.drawSvg(figure);
  const svg = settings.colours === "grey" ? inGrey(drawn) : drawn;
  const contents: Readonly<Record<FigureSettings["formats"][number], () => Promise<string | Uint8Array>>> = {
    svg: async () => `${withStyle(withPrintSize(svg), drawing.fontCss)}\n`,
    png: () => drawing.drawPng(svg, { dpi: settings.dots_per_inch }),
    pdf: () => drawing.drawPdf(svg, figure),
  };
  const files: ReportFile[] = [];
  for (const format of new Set(settings.formats))
    files.push({ path: `${name}.${format}`, content: await contents[format]() });
  return [...files, { path: `${name}.txt`, content: captionFile(figure, family, results) }];
}

/** Every colour as the grey that is as light. */
const inGrey = (svg: string): string =>
  svg.replace(
    /(fill|stroke)="(#[0-9a-f]{6})"/g,
    (_whole, name: string, colour: string) => `${name}="${greyOf(colour)}"`,
  );

/** The size in millimetres, so that the drawing is placed at its final size. */
const withPrintSize = (svg: string): string =>
  svg.replace(
    /<svg ([^>]*?)width="([\d.]+)" height="([\d.]+)"/,
    (_whole, before: string, width: string, height: string) => {
      const [w, h] = [width, height].map((pixels) => Number(((Number(pixels) * 25.4) / 96).toFixed(2)));
      return `<svg ${before}width="${w}mm" height="${h}mm"`;
    },
  );
