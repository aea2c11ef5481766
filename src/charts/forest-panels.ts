import { measureOf } from "../study/measures/index.js";
import { adjustedLine } from "../words/figures/effects.js";
import { measureWords } from "../words/measures.js";
import type { Json } from "./figure.js";
import type { ForestColumns } from "./forest-columns.js";
import { rowMarks } from "./forest-marks.js";
import { axes, isTurned, ticks } from "./forest-measures.js";
import type { ForestBlock, ForestRow } from "./forest-rows.js";
import { type FixedMark, type Layer, lineHeight, textAt } from "./marks.js";
import { blank, type Panel } from "./panels.js";
import { lines } from "./rough-width.js";
import { ink, type Theme } from "./theme.js";
import type { ValueAxis } from "./value-axis.js";

interface Layout {
  readonly columns: ForestColumns;
  readonly theme: Theme;
}

/** Heads of the columns, then title, rows and axis of each measure. */
export function forestPanels(blocks: readonly ForestBlock[], layout: Layout): Panel[] {
  const { small } = layout.theme.font;
  const pieces = blocks.flatMap((block, i) => [
    ...(i > 0 ? [blank(Math.round(small * 0.9))] : []),
    blockTitle(block, layout),
    rowsPanel(block, layout),
    ...(hasAxis(block.rows) ? [directionPanel(block, layout)] : []),
  ]);
  return [columnHeads(layout), ...pieces];
}

function columnHeads({ columns, theme }: Layout): Panel {
  const size = theme.font.small;
  const height = lineHeight(size);
  const head = { y: height / 2, size, colour: ink.muted };
  return {
    height,
    layers: [
      textAt({ ...head, x: columns.n, text: "n", align: "center" }),
      textAt({ ...head, x: columns.estimate, text: columns.estimateTitle }),
    ],
  };
}

function blockTitle({ measure, rows, sets }: ForestBlock, { columns, theme }: Layout): Panel {
  const size = theme.font.small;
  const room = { width: theme.width - 2 * size, size };
  const title = lines(measureWords[measure].title, { ...room, weight: "bold" });
  const adjusted = adjustedLine(
    rows.map(({ effect }) => effect),
    sets,
  );
  const below = adjusted === "" ? [] : lines(adjusted, room);
  const y = lineHeight(size) / 2;
  const under = y + title.length * lineHeight(size);
  return {
    height: (title.length + below.length) * lineHeight(size) + Math.round(size * 0.3),
    layers: [
      textAt({ x: columns.name, y, text: title, size, weight: "bold" }),
      ...(below.length > 0
        ? [textAt({ x: columns.name, y: under, text: below, size, colour: ink.muted })]
        : []),
    ],
  };
}

function rowsPanel({ measure, rows }: ForestBlock, { columns, theme }: Layout): Panel {
  const { nullValue } = measureOf(measure);
  const axis = axes[measureOf(measure).axis].of(knownValues(rows));
  const room = columns.width / axis.ticks.length;
  const x = xEncoding(measure, { axis, every: Math.ceil((3 * theme.font.small) / room) });
  let top = 0;
  const placed = rows.map((row) => {
    const above = theme.names === "above" ? row.name.length * lineHeight(theme.font.small) : 0;
    const y = top + above + firstLine(theme);
    top += row.height;
    return { row, y };
  });
  const drawn = [
    ...placed.flatMap(({ row, y }) => rowTexts(row, y, { columns, theme })),
    ...rowMarks(placed, { x, axis, theme, width: columns.width, isTurned: isTurned(measure) }),
  ];
  const noDifference: Layer = {
    data: { values: [{ value: nullValue }] },
    mark: { type: "rule", color: ink.axis, strokeWidth: theme.thin },
    encoding: { x: x("value") },
  };
  return { height: top, layers: hasAxis(rows) ? [noDifference, ...drawn] : drawn };
}

/** Middle of the first line of a row, from the row's top. */
const firstLine = ({ font }: Theme): number => (lineHeight(font.small) + font.small * 0.5) / 2;

const knownValues = (rows: readonly ForestRow[]): number[] =>
  rows
    .flatMap(({ effect: { estimate } }) => [estimate.value, estimate.lower, estimate.upper])
    .filter((value) => value !== null);

/** Without any estimate there is nothing to scale. */
const hasAxis = (rows: readonly ForestRow[]): boolean =>
  rows.some(({ effect }) => effect.estimate.value !== null);

interface Scaled {
  readonly axis: ValueAxis;
  /** Every so-many-th tick has room for its label. */
  readonly every: number;
}

const xEncoding =
  (measure: ForestBlock["measure"], { axis: { domain, ticks: values }, every }: Scaled) =>
  (field: string): Json => ({
    field,
    type: "quantitative",
    scale: { type: axes[measureOf(measure).axis].type, domain, nice: false, reverse: isTurned(measure) },
    axis: {
      title: null,
      values: values.filter((_, i) => i % every === 0),
      grid: true,
      labelExpr: ticks[measureOf(measure).unit],
    },
  });

function rowTexts(row: ForestRow, y: number, { columns, theme }: Layout): FixedMark[] {
  const size = theme.font.small;
  const above = theme.names === "above" ? row.name.length * lineHeight(size) : 0;
  const name = row.name.length > 0 ? [textAt({ x: columns.name, y: y - above, text: row.name, size })] : [];
  return [
    ...name,
    textAt({ x: columns.kind, y, text: row.kind, size, colour: ink.muted }),
    textAt({ x: columns.n, y, text: row.n, size, align: "center" }),
    textAt({ x: columns.estimate, y, text: row.estimate, size }),
  ];
}

/** Room for the axis' labels, then which side means what. */
function directionPanel(block: ForestBlock, { columns, theme }: Layout): Panel {
  const size = theme.font.small;
  const top = size * 1.8;
  const isAbove = theme.names === "above";
  // on a narrow page the words take its whole width
  const [from, to] = isAbove ? [columns.name, theme.width - columns.margins.left - size] : [0, columns.width];
  const [left, right] = directionWords(block).map((text) =>
    lines(text, { width: (to - from - size) / 2, size }),
  );
  const rows = Math.max(left!.length, right!.length);
  const look = { y: top + lineHeight(size) / 2, size, colour: ink.muted } as const;
  return {
    height: Math.round(top + rows * lineHeight(size)),
    layers: [
      textAt({ ...look, x: from, text: left! }),
      textAt({ ...look, x: to, text: right!, align: "right" }),
    ],
  };
}

/** With one compared group both sides are named; with several, the side is told against the reference. Right is where the compared group does better. */
export function directionWords({ measure, rows }: ForestBlock): [string, string] {
  const { better, worse } = measureWords[measure];
  const [{ compared, reference, effect: first }] = rows as [ForestRow];
  const alone = rows.every(({ effect }) => effect.compared === first.compared);
  const towards = alone ? `${compared} ${better}` : `${better} than ${reference}`;
  const away = alone ? `${reference} ${better}` : `${worse} than ${reference}`;
  return [`\u25c4\u00a0${away}`, `${towards}\u00a0\u25ba`];
}
