import {
  gapShare,
  type MissingShown,
  missingText,
  noneMissing,
  withGaps,
} from "../words/figures/missing-values.js";
import type { Figure } from "./figure.js";
import { type FixedMark, lineHeight, rectAt, ruleAt, textAt } from "./marks.js";
import { type Column, placed, type Scene, sceneOf } from "./missing-scene.js";
import { page, roomBeside } from "./page.js";
import { blank, type Panel } from "./panels.js";
import { type Fitting, inParts } from "./parts.js";
import { lines } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";

/**
 * Share of injuries without a value, a row a field with gaps and a column a group, as a number in a shaded cell: the
 * darker, the more is missing. Fields without gaps are named under the figure.
 */
export const missingValuesFigure = (data: MissingShown, theme: Theme): Figure =>
  drawn(data, sceneOf(data, theme)).figure;

/** The same on as many pages as it takes where the theme sets their height. */
export function missingValuesFigures(data: MissingShown, theme: Theme): readonly Figure[] {
  if (theme.height === null) return [missingValuesFigure(data, theme)];
  return inParts(withGaps(data.missing), (order) => drawn(data, sceneOf(data, theme, order)));
}

function drawn(data: MissingShown, scene: Scene): Fitting {
  const { theme, margins } = scene;
  const panels =
    scene.rows.length > 0
      ? [headPanel(scene), cellsPanel(scene), blank(Math.round(theme.font.small))]
      : [nothing(theme)];
  const [text, layout] = [missingText(data, scene.notes), { margins, theme }];
  return { figure: page(text, panels, layout), fits: roomBeside(panels, text, layout) >= 0 };
}

/** What the columns are: the field above, then the group, then how many. */
function headPanel(scene: Scene): Panel {
  const { theme, blocks } = scene;
  const { small } = theme.font;
  const line = lineHeight(small);
  const all = placed(scene);
  const broken = (column: Column, width: number) =>
    lines(column.label, { width: width - small * 0.1, size: small });
  const tallest = Math.max(...all.flat().map(({ column, width }) => broken(column, width).length));
  const labelsTop = line * 1.5;
  const height = Math.round(labelsTop + (tallest + 1) * line + small * 0.5);
  const layers = all.flatMap((block, i): FixedMark[] => {
    const [first, last] = [block[0]!, block.at(-1)!];
    const title = blocks[i]!.title;
    const over = { x: first.x, x2: last.x + last.width, y: line * 1.15, y2: line * 1.15 };
    return [
      ...(title === ""
        ? []
        : [
            textAt({ x: first.x, y: line / 2, text: title, size: small, weight: "bold" }),
            ruleAt(over, { color: ink.axis, strokeWidth: theme.thin }),
          ]),
      ...block.flatMap(({ column, x, width }): FixedMark[] => {
        const label = broken(column, width);
        const middle = { x: x + width / 2, size: small, align: "center" } as const;
        const top = labelsTop + (tallest - label.length) * line + line / 2;
        return [
          textAt({ ...middle, y: top, text: label }),
          textAt({
            ...middle,
            y: labelsTop + tallest * line + line / 2,
            text: `n = ${column.n}`,
            colour: ink.muted,
          }),
        ];
      }),
    ];
  });
  return { height, layers };
}

function cellsPanel(scene: Scene): Panel {
  const { rows, theme, margins } = scene;
  const { small } = theme.font;
  const columns = placed(scene).flat();
  let top = 0;
  const layers = rows.flatMap(({ name, isBold, height }, row): FixedMark[] => {
    const y = top + height / 2;
    const from = top;
    top += height;
    const first = y - ((name.length - 1) * lineHeight(small)) / 2;
    const weight = isBold ? "bold" : "normal";
    return [
      textAt({ x: small - margins.left, y: first, text: name, size: small, weight }),
      ...columns.flatMap(({ column, x, width }) =>
        cell(column.shares[row] ?? null, { x, width, y: from, height, theme }),
      ),
    ];
  });
  return { height: top, layers, isPlot: true };
}

interface Box {
  readonly x: number;
  readonly width: number;
  readonly y: number;
  readonly height: number;
  readonly theme: Theme;
}

function cell(share: number | null, { x, width, y, height, theme }: Box): FixedMark[] {
  const text = share === null ? "\u2013" : share === 0 ? "0" : gapShare(share);
  const corners = {
    x: x + theme.thin,
    x2: x + width - theme.thin,
    y: y + theme.thin,
    y2: y + height - theme.thin,
  };
  return [
    rectAt(corners, { color: shade(share ?? 0), stroke: ink.grid, strokeWidth: theme.thin }),
    textAt({
      x: x + width / 2,
      y: y + height / 2,
      text,
      size: theme.font.small,
      align: "center",
      colour: share === 0 ? ink.muted : ink.text,
    }),
  ];
}

const pale = [255, 255, 255] as const;
/** Words in black stand out from it by more than 4.5 : 1. */
const full = [104, 146, 203] as const;

/** White where nothing is missing, blue where everything is. */
export function shade(share: number): string {
  const parts = pale.map((light, i) => Math.round(light + (full[i]! - light) * share));
  return `#${parts.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}

function nothing({ font }: Theme): Panel {
  return {
    height: 6 * font.base,
    layers: [textAt({ x: 0, y: 3 * font.base, text: noneMissing, size: font.base, colour: ink.muted })],
  };
}
