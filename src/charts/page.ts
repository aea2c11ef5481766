import {
  distanceCautionLine,
  figureCaution,
  generalLine,
  syntheticLine,
  syntheticMark,
} from "../words/cautions.js";
import type { FigureText } from "../words/figures/figure-text.js";
import type { Figure, Json, VegaLiteSpec } from "./figure.js";
import { type FixedMark, lineHeight, rectAt, textAt } from "./marks.js";
import { blank, joinedPanels, layersOf, type Panel } from "./panels.js";
import { lines, roughWidth } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";

/** Room to the left and right of the plots, in pixels. */
export interface Margins {
  readonly left: number;
  readonly right: number;
}

/** What the others leave of a page whose height the theme sets; without end where it sets none. */
export function roomBeside(
  others: readonly Panel[],
  text: FigureText,
  { margins, theme }: PageLayout,
): number {
  if (theme.height === null) return Number.POSITIVE_INFINITY;
  const around = [header(text, margins, theme), ...others, footer(text, margins, theme)];
  return theme.height - around.reduce((sum, { height }) => sum + height, 0);
}

/** Height of the main panel: the theme's, or what the others leave of a page whose height the theme sets. */
export function stretchedHeight(others: readonly Panel[], text: FigureText, layout: PageLayout): number {
  const { height, plotHeight } = layout.theme;
  return height === null ? plotHeight : Math.max(plotHeight, roomBeside(others, text, layout));
}

/**
 * Title, subtitle, mark of synthetic data, panels and notes, one below the other, exactly as wide as the theme says, and as high
 * where it sets a height. Invented data are marked in each plot too, so that one cut out of its figure still says so.
 */
export function page(given: FigureText, panels: readonly Panel[], { margins, theme }: PageLayout): Figure {
  const text = { ...given, title: theme.shown.ownTitle ?? given.title };
  const figure = { ...text, description: alternativeOf(text) };
  const width = theme.width - margins.left - margins.right;
  const left = roomBeside(panels, text, { margins, theme });
  const filled = Number.isFinite(left) && left > 0 ? [...panels, blank(left)] : panels;
  const marked = text.synthetic ? filled.map((panel) => markedPanel(panel, { width, theme })) : filled;
  const all = [header(text, margins, theme), ...marked, footer(text, margins, theme)];
  const spec: VegaLiteSpec = {
    $schema: "https://vega.github.io/schema/vega-lite/v6.json",
    description: `${text.title} ${figure.description}`,
    background: ink.paper,
    padding: 0,
    bounds: "flush",
    spacing: 0,
    vconcat: joinedPanels(all.filter(({ height }) => height > 0)).map((panel) => view(panel, width)),
    config: config(theme),
  };
  return { ...figure, spec };
}

/** The text alternative; one of invented data says so. */
const alternativeOf = ({ description, synthetic }: FigureText): string =>
  synthetic ? `${description} ${syntheticLine}` : description;

export interface PageLayout {
  readonly margins: Margins;
  readonly theme: Theme;
}

/** A panel without marks still takes its room. */
function view({ height, layers }: Panel, width: number): Json {
  const holder = rectAt({ x: 0, x2: 1, y: 0, y2: 1 }, { opacity: 0 });
  return { width, height, layer: layersOf(layers.length > 0 ? layers : [holder]) };
}

/** A plot of invented data, with the mark pale behind what is drawn. */
function markedPanel(panel: Panel, { width, theme }: { width: number; theme: Theme }): Panel {
  const { height, layers } = panel;
  const isPlot =
    panel.isPlot ?? (layers.some((layer) => !("fixed" in layer)) && height > 3 * theme.font.base);
  if (!isPlot) return panel;
  const marks = (panel.plots ?? [{ x: 0, width }]).flatMap((plot) => mark(plot, height, theme));
  return { ...panel, layers: [...marks, ...layers] };
}

/** The mark on one line where it fits, else on two; in the middle of the plot. */
function mark({ x, width }: { x: number; width: number }, height: number, { font }: Theme): FixedMark[] {
  const words = syntheticMark.split(" ");
  const sizeOf = (text: readonly string[]) =>
    Math.min(
      (0.8 * width) / Math.max(...text.map((line) => roughWidth(line, 1, "bold"))),
      (0.7 * height) / (1.3 * text.length),
      2.6 * font.title,
    );
  const oneLine = [syntheticMark];
  const text = sizeOf(oneLine) >= font.small ? oneLine : words;
  const size = Math.max(font.small, Math.round(sizeOf(text)));
  const y = height / 2 - ((text.length - 1) * lineHeight(size)) / 2;
  const place = { x: x + width / 2, y, align: "center" } as const;
  return [textAt({ ...place, text, size, weight: "bold", colour: ink.syntheticPale })];
}

function header({ title, subtitle, synthetic }: FigureText, { left }: Margins, theme: Theme): Panel {
  const { font, width } = theme;
  if (!theme.shown.title) return badgeAlone(synthetic, left, theme);
  const edge = font.small;
  const badge = synthetic ? syntheticBadge(theme, width - left - edge) : null;
  const titleLines = lines(title, {
    width: width - 2 * edge - (badge ? badge.width + font.title : 0),
    size: font.title,
    weight: "bold",
  });
  const subtitleLines = lines(subtitle, { width: width - 2 * edge, size: font.base });
  const titleHeight = Math.max(titleLines.length * lineHeight(font.title), badge ? badge.height : 0);
  const subtitleTop = edge + titleHeight + font.base * 0.3;
  const height = Math.round(subtitleTop + subtitleLines.length * lineHeight(font.base) + font.base * 0.6);
  const x = edge - left;
  return {
    height,
    layers: [
      extent(left, theme, height),
      textAt({ x, y: edge, text: titleLines, size: font.title, weight: "bold", baseline: "top" }),
      textAt({ x, y: subtitleTop, text: subtitleLines, size: font.base, colour: ink.muted, baseline: "top" }),
      ...(badge ? badge.layers : []),
    ],
  };
}

/** Above a figure whose title stands in its caption. */
function badgeAlone(synthetic: boolean, left: number, theme: Theme): Panel {
  const right = theme.width - left - theme.font.small;
  const badge = synthetic ? syntheticBadge(theme, right) : { height: 0, layers: [] };
  const height = Math.round(theme.font.small * 0.7 + badge.height + theme.font.base * 0.5);
  return { height, layers: [extent(left, theme, height), ...badge.layers] };
}

/** Invisible, and as wide as the page: it keeps the page's width whatever the texts take. */
const extent = (left: number, theme: Theme, height: number): FixedMark =>
  rectAt({ x: -left, x2: theme.width - left, y: 0, y2: height }, { opacity: 0 });

function syntheticBadge({ font }: Theme, right: number) {
  const text = syntheticMark;
  const size = Math.round(font.title * 0.85);
  const width = roughWidth(text, size, "bold") + size;
  const height = Math.round(size * 1.7);
  const top = font.small * 0.7;
  const box = { x: right - width, x2: right, y: top, y2: top + height };
  const place = { x: right - width / 2, y: top + height / 2 + size * 0.06 };
  const layers = [
    rectAt(box, { color: ink.synthetic, cornerRadius: size * 0.2 }),
    textAt({ ...place, text, size, weight: "bold", colour: ink.paper, align: "center" }),
  ];
  return { width, height, layers };
}

function footer({ notes, synthetic }: FigureText, { left }: Margins, theme: Theme): Panel {
  const size = theme.font.small;
  const told = theme.shown.notes === "all" ? notes : notes.flatMap((note) => shortOf(note, theme));
  const said = synthetic && theme.shown.notes === "all" ? [...told, syntheticLine] : told;
  if (said.length === 0) return { height: size, layers: [extent(left, theme, size)] };
  const broken = lines(said.join(" "), { width: theme.width - 2 * size, size });
  const height = Math.round(broken.length * lineHeight(size) + size * 1.6);
  return {
    height,
    layers: [
      extent(left, theme, height),
      textAt({ x: size - left, y: size * 0.8, text: broken, size, colour: ink.muted, baseline: "top" }),
    ],
  };
}

/** Of the cautions their first sentence, where the rest stands in the caption. */
function shortOf(note: string, { shown }: Theme): string[] {
  if (shown.notes === "none") return [];
  if (note === figureCaution) return [generalLine];
  return note === distanceCautionLine ? [note] : [];
}

const config = ({ font, thin }: Theme): Json => ({
  font: "Inter, sans-serif",
  aria: false,
  view: { stroke: null },
  axis: {
    labelFlush: false,
    labelFontSize: font.small,
    labelColor: ink.text,
    labelLimit: 0,
    labelOverlap: false,
    domainColor: ink.axis,
    domainWidth: thin,
    tickColor: ink.axis,
    tickWidth: thin,
    tickSize: Math.round(font.small * 0.45),
    labelPadding: Math.round(font.small * 0.3),
    gridColor: ink.grid,
    gridWidth: thin,
  },
});
