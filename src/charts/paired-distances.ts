import { estimateWords } from "../words/estimates.js";
import { comparedNames } from "../words/figures/group-names.js";
import {
  type Distances,
  type DistancesShown,
  distancesText,
  meanChangeTitle,
  noPairs,
  readingTitles,
  shortReadingTitles,
  thresholdLabel,
} from "../words/figures/paired-distances.js";
import type { Figure, Json } from "./figure.js";
import { groupStyle } from "./group-style.js";
import { areaOf, type Layer, lineHeight, textAt } from "./marks.js";
import { page, stretchedHeight } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { lines, roughWidth } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";
import { linearAxis } from "./value-axis.js";

type DistanceGroup = Distances["groups"][number];

/**
 * First and last tendon-phalanx distance of each injury as a thin line, their means as a thick one, a facet a group,
 * with the threshold that the study calls complete. Shows single injuries, without ids or dates.
 *
 * A group without pairs keeps its facet and says so.
 */
export function pairedDistancesFigure(data: DistancesShown, theme: Theme): Figure {
  const text = distancesText(data);
  const scene = sceneOf(data, theme);
  const layout = { margins: scene.margins, theme };
  const heads = headPanel(scene);
  const others = [heads, blank(Math.round(theme.font.base * 0.6)), readingsPanel(scene)];
  const height = stretchedHeight(others, text, layout);
  const [head, gap, readings] = others as [Panel, Panel, Panel];
  return page(text, [head, gap, slopesPanel(scene, height), readings], layout);
}

interface Scene extends DistancesShown {
  readonly theme: Theme;
  readonly margins: { readonly left: number; readonly right: number };
  readonly facetWidth: number;
  /** Places of the first and last reading of a facet, in pixels. */
  readonly ends: (facet: number) => readonly [number, number];
}

function sceneOf({ distances, plan }: DistancesShown, theme: Theme): Scene {
  const { small } = theme.font;
  const right =
    Math.max(...thresholdLabel(distances.threshold_mm).map((line) => roughWidth(line, small))) + 2 * small;
  const margins = { left: Math.round(5 * small), right: Math.round(right) };
  const width = theme.width - margins.left - margins.right;
  const facetWidth = width / Math.max(1, distances.groups.length);
  const inset = Math.min(facetWidth * 0.25, 4 * small);
  const ends = (facet: number) => [facet * facetWidth + inset, (facet + 1) * facetWidth - inset] as const;
  return { distances, plan, theme, margins, facetWidth, ends };
}

/** Above each facet: the group, how many, and the mean change. */
function headPanel({ distances, plan, theme, facetWidth }: Scene): Panel {
  const { of } = comparedNames(plan);
  const { base, small } = theme.font;
  const width = facetWidth - small;
  const heads = distances.groups.map((group) => ({
    name: lines(of(group.label), { width, size: base, weight: "bold" }),
    facts: factsOf(group).flatMap((fact) => lines(fact, { width, size: small })),
  }));
  const nameHeight = Math.max(0, ...heads.map(({ name }) => name.length)) * lineHeight(base);
  const factsHeight = Math.max(0, ...heads.map(({ facts }) => facts.length)) * lineHeight(small);
  const layers = heads.flatMap(({ name, facts }, facet) => {
    const x = (facet + 0.5) * facetWidth;
    const colour = groupStyle(theme, facet).colour;
    return [
      textAt({ x, y: 0, text: name, size: base, weight: "bold", colour, align: "center", baseline: "top" }),
      textAt({ x, y: nameHeight, text: facts, size: small, align: "center", baseline: "top" }),
    ];
  });
  return { height: Math.round(nameHeight + factsHeight), layers };
}

function factsOf({ n, change }: DistanceGroup): string[] {
  if (n === 0) return [noPairs];
  return [`n = ${n}`, meanChangeTitle, estimateWords(change, "mm")];
}

function slopesPanel(scene: Scene, height: number): Panel {
  const { distances, theme } = scene;
  const y = distanceEncoding(distances);
  const facets = distances.groups.flatMap((group, facet) => {
    const pairs = distances.pairs.filter((pair) => pair.group === group.label);
    return [
      ...(pairs.length > 0 ? [thinLines(pairs, scene.ends(facet), { y, theme })] : []),
      ...meanMarks(group, facet, { scene, y }),
    ];
  });
  return { height, layers: [...threshold(scene, y), ...facets] };
}

type Encode = (field: string) => Json;

function distanceEncoding({ pairs, threshold_mm, groups }: Distances): Encode {
  const means = groups
    .flatMap(({ before_mean, after_mean }) => [before_mean, after_mean])
    .filter((mean) => mean !== null);
  const values = [
    threshold_mm,
    ...means,
    ...pairs.flatMap(({ before_mm, after_mm }) => [before_mm, after_mm]),
  ];
  const { domain, ticks } = linearAxis(values, 5);
  return (field) => ({
    field,
    type: "quantitative",
    scale: { domain, nice: false },
    axis: { title: null, values: ticks, grid: true, ticks: false, domain: false },
  });
}

function thinLines(
  pairs: Distances["pairs"],
  [x, x2]: readonly [number, number],
  { y, theme }: { y: Encode; theme: Theme },
): Layer {
  return {
    data: { values: pairs.map(({ before_mm, after_mm }) => ({ before_mm, after_mm })) },
    mark: { type: "rule", color: ink.single, strokeWidth: theme.thin * 1.2, opacity: 0.8 },
    encoding: { x: { value: x }, x2: { value: x2 }, y: y("before_mm"), y2: { field: "after_mm" } },
  };
}

function meanMarks(group: DistanceGroup, facet: number, { scene, y }: { scene: Scene; y: Encode }): Layer[] {
  const { before_mean, after_mean } = group;
  if (before_mean === null || after_mean === null) return [];
  const { theme, ends } = scene;
  const [x, x2] = ends(facet);
  const { colour, shape } = groupStyle(theme, facet);
  const point = (place: number, mean: number): Layer => ({
    data: { values: [{ mean }] },
    mark: {
      type: "point",
      shape,
      size: areaOf(theme.point * 1.3),
      fill: colour,
      stroke: ink.paper,
      strokeWidth: theme.thin,
      opacity: 1,
    },
    encoding: { x: { value: place }, y: y("mean") },
  });
  return [
    {
      data: { values: [{ before_mean, after_mean }] },
      mark: { type: "rule", color: colour, strokeWidth: theme.line * 1.6 },
      encoding: { x: { value: x }, x2: { value: x2 }, y: y("before_mean"), y2: { field: "after_mean" } },
    },
    point(x, before_mean),
    point(x2, after_mean),
  ];
}

/** A dashed line across all facets, labelled at its end. */
function threshold({ distances, theme, margins }: Scene, y: Encode): Layer[] {
  const { small } = theme.font;
  const width = theme.width - margins.left - margins.right;
  const { threshold_mm } = distances;
  const dash = [4 * theme.thin, 3 * theme.thin];
  return [
    {
      data: { values: [{ threshold_mm }] },
      mark: { type: "rule", color: ink.muted, strokeWidth: theme.thin * 1.3, strokeDash: dash },
      encoding: { y: y("threshold_mm") },
    },
    {
      data: { values: [{ threshold_mm }] },
      mark: {
        type: "text",
        text: thresholdLabel(threshold_mm),
        x: width + small * 0.6,
        dy: -lineHeight(small) / 2,
        align: "left",
        baseline: "middle",
        fontSize: small,
        lineHeight: lineHeight(small),
        color: ink.muted,
      },
      encoding: { y: y("threshold_mm") },
    },
  ];
}

function readingsPanel({ distances, theme, ends, facetWidth }: Scene): Panel {
  const { small } = theme.font;
  const height = Math.round(2.2 * small);
  const words =
    roughWidth(readingTitles[0], small) < facetWidth / 2 - small / 2 ? readingTitles : shortReadingTitles;
  const layers = distances.groups.flatMap((_, facet) =>
    ends(facet).map((x, end) =>
      textAt({ x, y: small * 1.2, text: words[end]!, size: small, align: "center" }),
    ),
  );
  return { height, layers };
}
