import {
  allSitesName,
  answerWords,
  estimateColumn,
  furtherSiteName,
  injuriesColumn,
  inOrder,
  limitsWords,
  pooledSitesText,
  siteColumn,
  weightColumn,
  weightWords,
} from "../words/figures/pooled-sites.js";
import type { LimitsShown, PooledShown, SiteAnswer } from "../words/pooling/pooled-shown.js";
import type { Figure } from "./figure.js";
import { areaOf, type FixedMark, lineHeight, pointAt, rectAt, ruleAt, textAt } from "./marks.js";
import { type Margins, page } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { lines, roughWidth } from "./rough-width.js";
import { type SiteAxis, siteAxis } from "./site-axis.js";
import { ink, type Theme } from "./theme.js";

/** Fills of the pooled answer and of a further site, and their line: those of limits over time, which read apart in grey print. */
const fills = { pooled: "#9db3d6", further: "#dfe6f1", line: "#1f4480", site: "#3d3d3d" } as const;

/** A row of the figure: a site, or one of the two of the pooled answer. */
interface SiteLine {
  readonly name: readonly string[];
  readonly injuries: string;
  readonly weight: string;
  readonly answer: readonly string[];
  readonly height: number;
  readonly bold: boolean;
}

interface Columns {
  readonly margins: Margins;
  readonly width: number;
  readonly name: number;
  /** Ends of the columns of numbers, which are set to the right. */
  readonly injuries: number;
  readonly weight: number;
  readonly answer: number;
}

interface Scene {
  readonly shown: PooledShown;
  readonly theme: Theme;
  readonly columns: Columns;
  readonly axis: SiteAxis;
}

/**
 * Sites and their pooled answer: each site a disc whose area is its weight, on the line of its interval; behind all of them, as bands, the
 * pooled answer with its interval and the place where a further site is expected, named in two rows beneath. The site with most injuries
 * comes first.
 *
 * A site without an interval has an open disc, one without an estimate the reason; an interval that goes on beyond the axis ends in an arrow.
 */
export function pooledSitesFigure(shown: PooledShown, theme: Theme): Figure {
  const sites = inOrder(shown.sites);
  const rows = sites.map((site) =>
    siteLine(site, { shown, theme, tight: sites.length > 12 || theme.height !== null }),
  );
  const pooled = pooledLines(shown, theme);
  const columns = columnsOf([...rows, ...pooled], shown, theme);
  const scene = { shown, theme, columns, axis: siteAxis(shown, columns.width) };
  const panels = [
    heads(scene),
    sitesPanel(sites, { rows, pooled, scene }),
    axisPanel(scene),
    ...sidesPanel(scene),
  ];
  return page(pooledSitesText(shown), panels, { margins: columns.margins, theme });
}

const answerWidth = ({ font }: Theme): number => font.small * 13;
const nameWidth = ({ width }: Theme): number => width * 0.22;

function lineOf(
  { name, injuries, weight, answer }: { name: string; injuries: string; weight: string; answer: string },
  { theme, bold, room }: { theme: Theme; bold: boolean; room: number },
): SiteLine {
  const { small } = theme.font;
  const look = { size: small, weight: bold ? "bold" : "normal" } as const;
  const names = lines(name, { width: nameWidth(theme), ...look });
  const answers = lines(answer, { width: answerWidth(theme), ...look });
  const most = Math.max(names.length, answers.length);
  return {
    name: names,
    injuries,
    weight,
    answer: answers,
    height: Math.round((most - 1) * lineHeight(small) + small * room),
    bold,
  };
}

function siteLine(
  site: SiteAnswer,
  { shown, theme, tight }: { shown: PooledShown; theme: Theme; tight: boolean },
): SiteLine {
  const texts = {
    name: site.site,
    injuries: String(site.injuries),
    weight: weightWords(site.weight),
    answer: answerWords(site, shown),
  };
  return lineOf(texts, { theme, bold: false, room: tight ? 1.5 : 2 });
}

function pooledLines(shown: PooledShown, theme: Theme): readonly [SiteLine, SiteLine] {
  const { pooled } = shown;
  const answer = answerWords({ ...pooled.interval, estimate: pooled.estimate }, shown);
  const further = limitsWords(pooled.prediction, shown);
  const look = { theme, room: theme.height === null ? 2.1 : 1.6 };
  return [
    lineOf(
      { name: allSitesName, injuries: String(pooled.injuries), weight: "", answer },
      { ...look, bold: true },
    ),
    lineOf({ name: furtherSiteName, injuries: "", weight: "", answer: further }, { ...look, bold: false }),
  ];
}

function columnsOf(rows: readonly SiteLine[], shown: PooledShown, theme: Theme): Columns {
  const { small } = theme.font;
  const widest = (texts: readonly string[], weight: "normal" | "bold" = "normal") =>
    Math.max(0, ...texts.map((text) => roughWidth(text, small, weight)));
  const name = widest([siteColumn, ...rows.flatMap((row) => row.name)], "bold");
  const injuries = widest([injuriesColumn, ...rows.map((row) => row.injuries)]);
  const weight = widest([weightColumn, ...rows.map((row) => row.weight)]);
  const answer = widest([estimateColumn(shown), ...rows.flatMap((row) => row.answer)], "bold");
  const margins = {
    left: Math.round(small + name + small + injuries + 1.6 * small),
    right: Math.round(1.6 * small + weight + 1.2 * small + answer + small),
  };
  const width = theme.width - margins.left - margins.right;
  return {
    margins,
    width,
    name: small - margins.left,
    injuries: -1.6 * small,
    weight: width + 1.6 * small + weight,
    answer: width + 1.6 * small + weight + 1.2 * small,
  };
}

function heads({ shown, theme, columns }: Scene): Panel {
  const size = theme.font.small;
  const title = lines(shown.axisTitle, { width: columns.width + 3 * size, size });
  const height = Math.round(title.length * lineHeight(size) + size * 0.4);
  const y = height - size * 0.4 - lineHeight(size) / 2;
  const head = { y, size, colour: ink.muted };
  return {
    height,
    layers: [
      textAt({ ...head, x: columns.name, text: siteColumn }),
      textAt({ ...head, x: columns.injuries, text: injuriesColumn, align: "right" }),
      textAt({ ...head, x: columns.weight, text: weightColumn, align: "right" }),
      textAt({ ...head, x: columns.answer, text: estimateColumn(shown) }),
      textAt({ ...head, x: columns.width / 2, y: lineHeight(size) / 2, text: title, align: "center" }),
    ],
  };
}

interface Rows {
  readonly rows: readonly SiteLine[];
  readonly pooled: readonly [SiteLine, SiteLine];
  readonly scene: Scene;
}

function sitesPanel(sites: readonly SiteAnswer[], { rows, pooled, scene }: Rows): Panel {
  const { small } = scene.theme.font;
  const gap = Math.round(small * 0.7);
  const tops: number[] = [];
  let top = 0;
  for (const { height } of rows) {
    tops.push(top);
    top += height;
  }
  const pooledTop = top + gap;
  const furtherTop = pooledTop + pooled[0].height;
  const height = furtherTop + pooled[1].height;
  const middle = (row: SiteLine, at: number) => at + row.height / 2;
  const most = Math.max(...sites.map(({ weight }) => weight), Number.MIN_VALUE);
  return {
    height,
    layers: [
      ...bands(scene, { height, pooledTop, furtherTop }),
      ...gridLines(scene, height),
      ...nullLine(scene, height),
      ...pooledLine(scene, furtherTop),
      dividing(scene, top + gap / 2),
      ...sites.flatMap((site, i) => siteMarks(site, { y: middle(rows[i]!, tops[i]!), most, scene })),
      ...rows.flatMap((row, i) => rowTexts(row, middle(row, tops[i]!), scene)),
      ...rowTexts(pooled[0], middle(pooled[0], pooledTop), scene),
      ...rowTexts(pooled[1], middle(pooled[1], furtherTop), scene),
      ...pooledPoint(scene, middle(pooled[0], pooledTop)),
    ],
  };
}

const onAxis = (x: number, { width }: SiteAxis): number => Math.min(width, Math.max(0, x));

/** From the top down to its own row: the further site's pale, the pooled answer's dark. */
function bands(
  { shown: { pooled }, axis }: Scene,
  {
    height,
    furtherTop,
  }: { readonly height: number; readonly pooledTop: number; readonly furtherTop: number },
): FixedMark[] {
  const band = ({ lower, upper }: LimitsShown, y2: number, color: string): FixedMark[] => {
    if (lower === null || upper === null) return [];
    return [rectAt({ x: onAxis(axis.x(lower), axis), x2: onAxis(axis.x(upper), axis), y: 0, y2 }, { color })];
  };
  return [
    ...band(pooled.prediction, height, fills.further),
    ...band(pooled.interval, furtherTop, fills.pooled),
  ];
}

const gridLines = ({ axis, theme }: Scene, height: number): FixedMark[] =>
  axis.ticks.map((tick) =>
    ruleAt(
      { x: axis.x(tick), x2: axis.x(tick), y: 0, y2: height },
      { color: ink.grid, strokeWidth: theme.thin, opacity: 0.7 },
    ),
  );

function nullLine({ shown: { compared }, axis, theme }: Scene, height: number): FixedMark[] {
  if (compared === null) return [];
  const x = axis.x(compared.nullValue);
  return [
    ruleAt({ x, x2: x, y: 0, y2: height }, { color: ink.text, strokeWidth: theme.thin * 1.3, opacity: 1 }),
  ];
}

function pooledLine({ shown: { pooled }, axis, theme }: Scene, y2: number): FixedMark[] {
  if (pooled.estimate === null) return [];
  const x = axis.x(pooled.estimate);
  return [ruleAt({ x, x2: x, y: 0, y2 }, { color: fills.line, strokeWidth: theme.line * 0.8, opacity: 1 })];
}

const dividing = ({ columns, theme }: Scene, y: number): FixedMark =>
  ruleAt(
    { x: columns.name, x2: theme.width - columns.margins.left - theme.font.small, y, y2: y },
    { color: ink.axis, strokeWidth: theme.thin, opacity: 1 },
  );

function siteMarks(
  { estimate, lower, upper, weight }: SiteAnswer,
  { y, most, scene }: { readonly y: number; readonly most: number; readonly scene: Scene },
): FixedMark[] {
  if (estimate === null) return [];
  const { axis, theme } = scene;
  const hasInterval = lower !== null && upper !== null;
  return [
    ...(hasInterval ? interval({ lower, upper }, { y, scene }) : []),
    pointAt(
      { x: onAxis(axis.x(estimate), axis), y },
      {
        shape: "circle",
        size: areaOf(theme.point * Math.max(0.6, 1.7 * Math.sqrt(weight / most))),
        fill: hasInterval ? fills.site : ink.paper,
        stroke: hasInterval ? ink.paper : fills.site,
        strokeWidth: theme.thin,
      },
    ),
  ];
}

function interval(
  { lower, upper }: { readonly lower: number; readonly upper: number },
  { y, scene: { axis, theme } }: { readonly y: number; readonly scene: Scene },
): FixedMark[] {
  const [from, to] = [axis.x(lower), axis.x(upper)];
  const arrow = { y, size: theme.font.small * 0.8, colour: fills.site } as const;
  return [
    ruleAt(
      { x: onAxis(from, axis), x2: onAxis(to, axis), y, y2: y },
      { color: fills.site, strokeWidth: theme.line * 0.65, opacity: 1 },
    ),
    ...(from < -0.5 ? [textAt({ ...arrow, x: 0, text: "\u25c4", align: "right" })] : []),
    ...(to > axis.width + 0.5 ? [textAt({ ...arrow, x: axis.width, text: "\u25ba" })] : []),
  ];
}

function rowTexts(
  { name, injuries, weight, answer, bold }: SiteLine,
  y: number,
  { columns, theme }: Scene,
): FixedMark[] {
  const size = theme.font.small;
  const raised = (count: number) => y - ((count - 1) * lineHeight(size)) / 2;
  const look = { size, weight: bold ? "bold" : "normal" } as const;
  return [
    textAt({ ...look, x: columns.name, y: raised(name.length), text: name }),
    ...(injuries === "" ? [] : [textAt({ ...look, x: columns.injuries, y, text: injuries, align: "right" })]),
    ...(weight === ""
      ? []
      : [textAt({ ...look, x: columns.weight, y, text: weight, align: "right", colour: ink.muted })]),
    textAt({ ...look, x: columns.answer, y: raised(answer.length), text: answer }),
  ];
}

/** At its own row: a disc as the sites have, in the colour of the line. */
function pooledPoint({ shown: { pooled }, axis, theme }: Scene, y: number): FixedMark[] {
  if (pooled.estimate === null) return [];
  return [
    pointAt(
      { x: axis.x(pooled.estimate), y },
      {
        shape: "circle",
        size: areaOf(theme.point * 1.2),
        fill: fills.line,
        stroke: ink.paper,
        strokeWidth: theme.thin * 1.5,
      },
    ),
  ];
}

function axisPanel({ axis, theme }: Scene): Panel {
  const { small } = theme.font;
  const height = Math.round(lineHeight(small) * 1.3);
  return {
    height,
    layers: [
      ruleAt({ x: 0, x2: axis.width, y: 0, y2: 0 }, { color: ink.axis, strokeWidth: theme.thin, opacity: 1 }),
      ...axis.ticks.map((tick) =>
        textAt({
          x: axis.x(tick),
          y: height - lineHeight(small) / 2,
          text: axis.label(tick),
          size: small,
          align: "center",
        }),
      ),
    ],
  };
}

function sidesPanel({ shown: { compared }, axis, theme }: Scene): Panel[] {
  if (compared === null) return [blank(Math.round(theme.font.small * 0.3))];
  const size = theme.font.small;
  const sides = [`\u25c4\u00a0${compared.leftSide}`, `${compared.rightSide}\u00a0\u25ba`].map((text) =>
    lines(text, { width: (axis.width - size) / 2, size }),
  );
  const [left, right] = sides as [readonly string[], readonly string[]];
  const y = lineHeight(size) / 2;
  return [
    {
      height: Math.max(left.length, right.length) * lineHeight(size),
      layers: [
        textAt({ x: 0, y, text: left, size, colour: ink.muted }),
        textAt({ x: axis.width, y, text: right, size, colour: ink.muted, align: "right" }),
      ],
    },
  ];
}
