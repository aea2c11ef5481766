import type { Json } from "./figure.js";
import { type FixedKind, type FixedMark, fixedKinds, type Layer } from "./marks.js";

/** What is drawn in a panel. */
export type Drawn = FixedMark | Layer;

/** A strip of the page; its coordinates begin at the left end of the plots. */
export interface Panel {
  readonly height: number;
  readonly layers: readonly Drawn[];
  /** Where plots stand beside one another: the left end and the width of each. */
  readonly plots?: readonly { readonly x: number; readonly width: number }[];
  /** Whether it is a plot though everything in it stands at fixed places. */
  readonly isPlot?: true;
}

export const blank = (height: number): Panel => ({ height, layers: [] });

const isFixed = (drawn: Drawn): drawn is FixedMark => "fixed" in drawn;

/**
 * Panels one below the other as one, where nothing in them needs an axis: for the chart library a view costs far more than a mark.
 */
export function joinedPanels(panels: readonly Panel[]): Panel[] {
  const joined: Panel[] = [];
  for (const panel of panels) {
    const above = joined.at(-1);
    if (above !== undefined && hasPlacesOnly(above) && hasPlacesOnly(panel)) {
      joined[joined.length - 1] = {
        height: above.height + panel.height,
        layers: [...above.layers, ...panel.layers.map((mark) => lowered(mark as FixedMark, above.height))],
      };
    } else joined.push(panel);
  }
  return joined;
}

const hasPlacesOnly = ({ layers }: Panel): boolean => layers.every(isFixed);

function lowered({ fixed, look }: FixedMark, by: number): FixedMark {
  const { y, y2 } = look as { readonly y: number; readonly y2?: number };
  return { fixed, look: { ...look, y: y + by, ...(y2 === undefined ? {} : { y2: y2 + by }) } };
}

/**
 * The layers of a panel: marks at fixed places that stand side by side are data of one layer a kind, rectangles lowest and texts on
 * top. A layer for each mark took most of the time of a figure.
 */
export function layersOf(drawn: readonly Drawn[]): Layer[] {
  const layers: Layer[] = [];
  let beside: FixedMark[] = [];
  const draw = () => {
    layers.push(...fixedLayers(beside));
    beside = [];
  };
  for (const one of drawn) {
    if (isFixed(one)) beside.push(one);
    else {
      draw();
      layers.push(one);
    }
  }
  draw();
  return layers;
}

/** A layer for each kind of mark and each set of properties. */
function fixedLayers(marks: readonly FixedMark[]): Layer[] {
  return fixedKinds.flatMap((kind) => {
    const alike = new Map<string, Layer[]>();
    for (const { fixed, look } of marks) {
      if (fixed !== kind) continue;
      const properties = Object.keys(look).join();
      alike.set(properties, [...(alike.get(properties) ?? []), look]);
    }
    return [...alike.values()].map((looks) => fixedLayer(kind, looks));
  });
}

/** Places that a line of the chart format takes as encodings only. */
const encoded: Readonly<Record<FixedKind, readonly string[]>> = {
  rect: [],
  rule: ["x", "x2", "y", "y2"],
  point: [],
  text: [],
};

/**
 * What all marks have alike is said once, the rest is data. A text is always data: written into the mark, the chart library would
 * look it up among the names of its own objects, and a text such as `constructor` is one of them.
 */
function fixedLayer(kind: FixedKind, looks: readonly Layer[]): Layer {
  const [first] = looks as [Layer];
  const properties = Object.keys(first).filter((name) => name !== "text");
  const isData = (name: string) =>
    name === "text" || looks.some((look) => JSON.stringify(look[name]) !== JSON.stringify(first[name]));
  const said = (name: string): Json => (isData(name) ? { expr: `datum.${name}` } : first[name]!);
  const marked = properties.filter((name) => !encoded[kind].includes(name));
  return {
    data: { values: looks.map((look) => only(look, isData)) },
    encoding: {
      ...(kind === "text" ? { text: { field: "text" } } : {}),
      ...Object.fromEntries(encoded[kind].map((name) => [name, { value: said(name) }])),
    },
    mark: { type: kind, ...Object.fromEntries(marked.map((name) => [name, said(name)])) },
  };
}

const only = (look: Layer, isData: (name: string) => boolean): Layer =>
  Object.fromEntries(Object.entries(look).filter(([name]) => isData(name)));
