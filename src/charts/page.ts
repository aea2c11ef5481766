import { syntheticLine, syntheticMark } from "../words/cautions.js";
import type { FigureText } from "../words/figures/figure-text.js";
import type { Figure, Json, VegaLiteSpec } from "./figure.js";
import { type FixedMark, lineHeight, rectAt, textAt } from "./marks.js";
import { joinedPanels, layersOf, type Panel } from "./panels.js";
import { lines, roughWidth } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";

/** Room to the left and right of the plots, in pixels. */
export interface Margins {
  readonly left: number;
  readonly right: number;
}

/** Height of the main panel: the theme's, or what the others leave of a page whose height the theme sets. */
export function stretchedHeight(
  others: readonly Panel[],
  text: FigureText,
  { margins, theme }: PageLayout,
): number {
  if (theme.height === null) return theme.plotHeight;
  const around = [header(text, margins, theme), ...others, footer(text, margins, theme)];
  return Math.max(theme.plotHeight, theme.height - around.reduce((sum, { height }) => sum + height, 0));
}

/** Title, subtitle, mark of synthetic data, panels and notes, one below the other, exactly as wide as the theme says. */
export function page(text: FigureText, panels: readonly Panel[], { margins, theme }: PageLayout): Figure {
  const { notes: _notes, ...figure } = { ...text, description: alternativeOf(text) };
  const width = theme.width - margins.left - margins.right;
  const all = [header(text, margins, theme), ...panels, footer(text, margins, theme)];
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

function header({ title, subtitle, synthetic }: FigureText, { left }: Margins, theme: Theme): Panel {
  const { font, width } = theme;
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
  const said = synthetic ? [...notes, syntheticLine] : notes;
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
