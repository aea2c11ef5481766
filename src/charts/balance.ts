import type { CohortRow, Results } from "../study/results.js";
import {
  type BalanceShown,
  balanceNames,
  balanceText,
  characteristics,
  legendOf,
  notComputed,
  nothingToBalance,
  noticeable,
  standardisedTitle,
} from "../words/figures/balance.js";
import type { GroupNames } from "../words/figures/group-names.js";
import { labelOf } from "../words/terms.js";
import type { Figure, Json } from "./figure.js";
import { groupStyle } from "./group-style.js";
import { areaOf, type FixedMark, type Layer, lineHeight, pointAt, textAt } from "./marks.js";
import { page, roomBeside } from "./page.js";
import type { Panel } from "./panels.js";
import { type Fitting, inParts } from "./parts.js";
import { lines, roughWidth } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";
import { linearAxis } from "./value-axis.js";

/**
 * Standardised difference of each group from the reference, a row a characteristic, with lines at 0.1 either way.
 * What has no difference to show says so.
 */
export const balanceFigure = (data: BalanceShown, theme: Theme): Figure =>
  drawn(data, { rows: rowsOf(data, theme), theme }).figure;

/** The same on as many pages as it takes where the theme sets their height. */
export function balanceFigures(data: BalanceShown, theme: Theme): readonly Figure[] {
  if (theme.height === null) return [balanceFigure(data, theme)];
  return inParts(rowsOf(data, theme), (rows) => drawn(data, { rows, theme }));
}

function drawn(data: BalanceShown, { rows, theme }: { rows: readonly BalanceRow[]; theme: Theme }): Fitting {
  const scene = sceneOf(data, rows, theme);
  const panels = rows.length > 0 ? [legend(scene), rowsPanel(scene), axisTitle(scene)] : [nothing(theme)];
  const [text, layout] = [balanceText(data), { margins: scene.margins, theme }];
  return { figure: page(text, panels, layout), fits: roomBeside(panels, text, layout) >= 0 };
}

interface BalanceRow {
  readonly name: readonly string[];
  readonly differences: CohortRow["standardised_differences"];
  readonly height: number;
}

interface Scene {
  readonly groups: Results["cohort"]["groups"];
  readonly reference: string;
  readonly names: GroupNames;
  readonly rows: readonly BalanceRow[];
  readonly theme: Theme;
  readonly margins: { readonly left: number; readonly right: number };
}

/** The differences stand on the first row of a characteristic. */
function rowsOf({ cohort }: BalanceShown, theme: Theme): BalanceRow[] {
  const { small } = theme.font;
  return characteristics(cohort).map(({ variable, standardised_differences: differences }) => {
    const name = lines(labelOf(variable), {
      width: (theme.names === "above" ? 11 : 15) * small,
      size: small,
    });
    return { name, differences, height: Math.round(name.length * lineHeight(small) + small * 0.5) };
  });
}

function sceneOf(data: BalanceShown, rows: readonly BalanceRow[], theme: Theme): Scene {
  const { small } = theme.font;
  const names = Math.max(0, ...rows.flatMap(({ name }) => name).map((line) => roughWidth(line, small)));
  const margins = {
    left: Math.round(names + 2.5 * small),
    right: Math.round(roughWidth(notComputed, small) + 2 * small),
  };
  const { groups, reference } = data.cohort;
  return { groups, reference, names: balanceNames(data), rows, theme, margins };
}

const plotWidth = ({ theme, margins }: Scene): number => theme.width - margins.left - margins.right;

/** A line a group: its mark, then its name. */
function legend(scene: Scene): Panel {
  const { theme, groups, reference, names } = scene;
  const { small } = theme.font;
  const others = groups
    .map((group, i) => ({ ...group, index: i }))
    .filter(({ label }) => label !== reference);
  const layers: FixedMark[] = [];
  const start = small - scene.margins.left;
  let top = 0;
  for (const { label, n, index } of others) {
    const text = legendOf({ label: names.of(label), n, reference: names.of(reference) });
    const broken = lines(text, { width: scene.theme.width - 3.6 * small, size: small });
    const y = top + lineHeight(small) / 2;
    const { colour } = groupStyle(theme, index);
    layers.push(
      pointAt({ x: start + small * 0.6, y }, markOf(index, theme)),
      textAt({ x: start + small * 1.6, y, text: broken, size: small, colour }),
    );
    top += broken.length * lineHeight(small);
  }
  return { height: Math.round(top + small), layers };
}

function markOf(index: number, theme: Theme): Layer {
  const { colour, shape } = groupStyle(theme, index);
  return {
    shape,
    size: areaOf(theme.point * 1.2),
    fill: colour,
    stroke: ink.paper,
    strokeWidth: theme.thin / 2,
  };
}

function rowsPanel(scene: Scene): Panel {
  const { rows, groups, theme } = scene;
  const known = rows.flatMap(({ differences }) => differences).filter((value) => value !== null);
  const { domain, ticks } = linearAxis([-noticeable, noticeable, ...known], theme.names === "above" ? 3 : 6);
  const x = (field: string): Json => ({
    field,
    type: "quantitative",
    scale: { domain, nice: false },
    axis: {
      title: null,
      values: ticks,
      grid: true,
      labelExpr: "replace(format(datum.value, '.2~f'), '-', '\u2212')",
    },
  });
  let top = 0;
  const placed = rows.map((row) => {
    const y = top + row.height / 2;
    top += row.height;
    return { ...row, y };
  });
  return {
    height: top,
    layers: [
      ...guides(x, theme),
      ...placed.flatMap((row) => rowTexts(row, scene)),
      ...groups.flatMap((_, i) => differencesOf(i, placed, { scene, x })),
    ],
  };
}

interface PlacedRow extends BalanceRow {
  /** The middle of the row, in pixels. */
  readonly y: number;
}

const isCompared = ({ groups, reference }: Scene, i: number): boolean => groups[i]!.label !== reference;

function rowTexts({ name, differences, y }: PlacedRow, scene: Scene): FixedMark[] {
  const { small } = scene.theme.font;
  const first = y - ((name.length - 1) * lineHeight(small)) / 2;
  const isKnown = scene.groups.some((_, i) => isCompared(scene, i) && (differences[i] ?? null) !== null);
  const none = textAt({
    x: plotWidth(scene) + small,
    y,
    text: notComputed,
    size: small,
    colour: ink.muted,
  });
  return [
    textAt({ x: small - scene.margins.left, y: first, text: name, size: small }),
    ...(isKnown ? [] : [none]),
  ];
}

/** The marks of one group, a row a characteristic. */
function differencesOf(
  i: number,
  rows: readonly PlacedRow[],
  { scene, x }: { readonly scene: Scene; readonly x: (field: string) => Json },
): Layer[] {
  const values = rows.flatMap(({ differences, y }) => {
    const value = differences[i] ?? null;
    return value === null ? [] : [{ y, value }];
  });
  if (values.length === 0 || !isCompared(scene, i)) return [];
  return [
    {
      data: { values },
      mark: { type: "point", y: { expr: "datum.y" }, opacity: 1, ...markOf(i, scene.theme) },
      encoding: { x: x("value") },
    },
  ];
}

const guides = (x: (field: string) => Json, { thin }: Theme): Layer[] => [
  {
    data: { values: [{ value: 0 }] },
    mark: { type: "rule", color: ink.axis, strokeWidth: thin },
    encoding: { x: x("value") },
  },
  {
    data: { values: [{ value: -noticeable }, { value: noticeable }] },
    mark: { type: "rule", color: ink.muted, strokeWidth: thin, strokeDash: [4 * thin, 3 * thin] },
    encoding: { x: x("value") },
  },
];

function axisTitle(scene: Scene): Panel {
  const { base, small } = scene.theme.font;
  const y = small * 1.9 + lineHeight(base) / 2;
  return {
    height: Math.round(y + lineHeight(base)),
    layers: [textAt({ x: plotWidth(scene) / 2, y, text: standardisedTitle, size: base, align: "center" })],
  };
}

function nothing({ font }: Theme): Panel {
  return {
    height: 6 * font.base,
    layers: [textAt({ x: 0, y: 3 * font.base, text: nothingToBalance, size: font.base, colour: ink.muted })],
  };
}
