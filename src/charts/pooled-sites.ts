import {
  estimateColumn,
  injuriesColumn,
  inOrder,
  pooledSitesText,
  siteColumn,
  weightColumn,
} from "../words/figures/pooled-sites.js";
import type { PooledShown, SiteAnswer } from "../words/pooling/pooled-shown.js";
import type { Figure } from "./figure.js";
import { type FixedMark, lineHeight, ruleAt, textAt } from "./marks.js";
import { page } from "./page.js";
import { blank, type Panel } from "./panels.js";
import {
  bands,
  dividing,
  gridLines,
  nullLine,
  pooledLine,
  pooledPoint,
  type Scene,
  siteMarks,
} from "./pooled-sites-marks.js";
import { columnsOf, pooledLines, type SiteLine, siteLine } from "./pooled-sites-rows.js";
import { lines } from "./rough-width.js";
import { siteAxis } from "./site-axis.js";
import { ink, type Theme } from "./theme.js";

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
