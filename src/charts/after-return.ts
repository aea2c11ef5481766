import type { AfterReturnGroup } from "../study/results.js";
import {
  type AfterShown,
  afterNames,
  afterText,
  followedTitle,
  groupFacts,
  type Standing,
  standings,
} from "../words/figures/after-return.js";
import { timeTitle } from "../words/figures/return-curves.js";
import type { Figure, Json } from "./figure.js";
import { areaOf, type Layer, lineHeight, rectAt, textAt } from "./marks.js";
import { type Margins, page, roomBeside } from "./page.js";
import type { Panel } from "./panels.js";
import { type Fitting, inParts } from "./parts.js";
import { lines, roughWidth } from "./rough-width.js";
import { endLabels, shareAxis } from "./step-curve.js";
import { ink, type Theme } from "./theme.js";
import { type TimeAxis, timeAxis } from "./time-axis.js";

/**
 * Fills from the bottom of the stack to its top. Neighbours differ in lightness, so that they are told apart in grey print; each is
 * named at its end as well.
 */
const fills: Readonly<Record<Standing, { readonly fill: string; readonly text: string }>> = {
  back_and_well: { fill: "#1f4480", text: "#1f4480" },
  ruptured_again: { fill: "#de6f22", text: "#a34a0a" },
  ended_after: { fill: "#6b4059", text: "#6b4059" },
  not_yet: { fill: "#f1f1f1", text: "#5a5a5a" },
  ended_before: { fill: "#c4c4c4", text: "#5a5a5a" },
};

const order = Object.keys(standings) as readonly Standing[];

/** Height of one group's panel beside that of a figure with one panel. */
const groupHeight = 0.42;

interface Scene extends AfterShown {
  readonly theme: Theme;
  readonly axis: TimeAxis;
  readonly margins: Margins;
}

/**
 * Shares of all injuries in each state over time, stacked, a panel a group: at the bottom those back and not ruptured again, with their
 * limits at the landmarks, then those whose return did not last.
 */
export const afterReturnFigure = (data: AfterShown, theme: Theme): Figure => drawn(data, theme).figure;

/** The same on as many pages as it takes where the theme sets their height. */
export function afterReturnFigures(data: AfterShown, theme: Theme): readonly Figure[] {
  if (theme.height === null) return [afterReturnFigure(data, theme)];
  return inParts(data.groups, (groups) => drawn({ ...data, groups }, theme));
}

function drawn(data: AfterShown, theme: Theme): Fitting {
  const text = afterText(data);
  const scene = sceneOf(data, theme);
  const { groups } = data;
  const layout = { margins: scene.margins, theme };
  const heads = groups.map((group) => headPanel(group, scene));
  const feet = groups.map((group) => footPanel(group, scene));
  const around = [timeTitlePanelOf(scene), ...(theme.names === "above" ? [legendPanel(scene)] : [])];
  const room = roomBeside([...heads, ...feet, ...around], text, layout);
  const least = groupHeight * theme.plotHeight;
  const height = Number.isFinite(room) && groups.length > 0 ? Math.max(least, room / groups.length) : least;
  const panels = groups.flatMap((group, i) => [
    heads[i]!,
    stackPanel(group, scene, Math.floor(height)),
    feet[i]!,
  ]);
  return {
    figure: page(text, [...panels, ...around], layout),
    fits: room >= theme.plotHeight * groups.length,
  };
}

/** What the areas mean, on a page without room beside the plots. */
function legendPanel({ theme, margins }: Scene): Panel {
  const { small } = theme.font;
  const x = small - margins.left;
  const line = lineHeight(small);
  const layers = order.flatMap((standing, i) => {
    const y = (i + 0.7) * line;
    const box = { x, x2: x + small * 1.2, y: y - small * 0.45, y2: y + small * 0.45 };
    return [
      rectAt(box, { color: fills[standing].fill, stroke: ink.axis, strokeWidth: theme.thin }),
      textAt({ x: x + small * 1.8, y, text: standings[standing], size: small }),
    ];
  });
  return { height: Math.round((order.length + 0.6) * line), layers };
}

function sceneOf(data: AfterShown, theme: Theme): Scene {
  const { groups, plan } = data;
  const { base, small } = theme.font;
  const furthest = 2 * 7 * plan.horizon_weeks;
  const shown = groups.map(({ over_time }) => ({
    last_day: Math.min(over_time.last_day, furthest),
    number_at_risk: over_time.number_followed,
  }));
  const names = Math.max(...Object.values(standings).map((name) => roughWidth(name, base, "bold")));
  const margins = {
    left: Math.round(small * 5),
    right: Math.round(theme.names === "above" ? small * 1.8 : names + small * 2.7),
  };
  const width = theme.width - margins.left - margins.right;
  return { ...data, theme, margins, axis: timeAxis(shown, { width, size: small }) };
}

function headPanel(group: AfterReturnGroup, { theme, margins, plan, groups }: Scene): Panel {
  const { base, small } = theme.font;
  const x = small - margins.left;
  const width = theme.width - 2 * small;
  const name = lines(afterNames({ groups, plan }).of(group.label), { width, size: base, weight: "bold" });
  const facts = lines(groupFacts(group, plan), { width, size: small });
  const top = small * 0.9;
  const nameHeight = name.length * lineHeight(base);
  return {
    height: Math.round(top + nameHeight + facts.length * lineHeight(small) + small * 0.8),
    layers: [
      textAt({ x, y: top, text: name, size: base, weight: "bold", baseline: "top" }),
      textAt({ x, y: top + nameHeight, text: facts, size: small, baseline: "top" }),
    ],
  };
}

const share = shareAxis({ domain: [0, 1], ticks: [0, 0.25, 0.5, 0.75, 1] });

function stackPanel(group: AfterReturnGroup, scene: Scene, height: number): Panel {
  const { axis, theme } = scene;
  const stacks = stacksOf(group, axis);
  if (stacks.length === 0) return { height, layers: [] };
  const day = axis.encoding("day", "labelled");
  const shown = order.filter((standing) => stacks.some((at) => at[standing].to > at[standing].from));
  // a step on the last day of all has no width: what it would be named by is what stood before it
  const last = stacks.at(-2) ?? stacks.at(-1)!;
  const labels = shown.map((standing) => ({
    text: [standings[standing]],
    colour: fills[standing].text,
    x: axis.x(stacks.at(-1)!.day),
    y: (1 - (last[standing].from + last[standing].to) / 2) * height,
  }));
  return {
    height,
    layers: [
      ...shown.map((standing) => area(standing, stacks, { day, theme })),
      ...landmarkMarks(group, scene, day),
      ...(theme.names === "above"
        ? []
        : endLabels(labels, {
            bend: axis.width,
            x: axis.width + theme.font.small * 1.7,
            height,
            beyond: theme.font.base,
            theme,
          })),
    ],
  };
}

type Stack = Readonly<Record<Standing, { readonly from: number; readonly to: number }>> & {
  readonly day: number;
};

/** The shares of each day one upon the other, as far as the axis goes. */
function stacksOf({ over_time }: AfterReturnGroup, { endDay }: TimeAxis): readonly Stack[] {
  const points = over_time.points.filter(({ day }) => day <= endDay);
  const until = Math.min(endDay, over_time.last_day);
  const last = points.at(-1);
  const all = last !== undefined && last.day < until ? [...points, { ...last, day: until }] : points;
  return all.map((point) => {
    let top = 0;
    const stack = order.map((standing) => {
      const from = top;
      top += point[standing];
      return [standing, { from, to: top }] as const;
    });
    return { day: point.day, ...(Object.fromEntries(stack) as Omit<Stack, "day">) };
  });
}

function area(
  standing: Standing,
  stacks: readonly Stack[],
  { day, theme }: { readonly day: Json; readonly theme: Theme },
): Layer {
  return {
    data: { values: stacks.map((stack) => ({ day: stack.day, ...stack[standing] })) },
    mark: {
      type: "area",
      interpolate: "step-after",
      color: fills[standing].fill,
      opacity: 1,
      line: { color: ink.paper, strokeWidth: theme.thin },
    },
    encoding: { x: day, y: share("to"), y2: { field: "from" } },
  };
}

/** The share back and not ruptured again at the landmarks, with its limits. */
function landmarkMarks(
  { landmarks, over_time }: AfterReturnGroup,
  { axis, theme }: Scene,
  day: Json,
): Layer[] {
  const values = landmarks.flatMap(({ day: at, back_and_well: { value, lower, upper } }) =>
    value === null || at > axis.endDay || at > over_time.last_day
      ? []
      : [{ day: at, value, lower: lower ?? value, upper: upper ?? value }],
  );
  const rule = (color: string, strokeWidth: number): Layer => ({
    data: { values },
    mark: { type: "rule", color, strokeWidth },
    encoding: { x: day, y: share("lower"), y2: { field: "upper" } },
  });
  return [
    rule(ink.paper, theme.line * 2),
    rule(ink.text, theme.line * 0.7),
    {
      data: { values },
      mark: {
        type: "point",
        shape: "circle",
        size: areaOf(theme.point * 0.9),
        fill: ink.paper,
        stroke: ink.text,
        strokeWidth: theme.line * 0.7,
        opacity: 1,
      },
      encoding: { x: day, y: share("value") },
    },
  ];
}

/** Room for the labels of the axis; under them how many are followed. */
function footPanel({ over_time }: AfterReturnGroup, { axis, theme }: Scene): Panel {
  const { small } = theme.font;
  const top = small * 1.9;
  const y = top + lineHeight(small) / 2;
  const shown = over_time.number_followed.filter(({ day }) => axis.ticks.includes(day));
  return {
    height: Math.round(top + lineHeight(small) + small * 0.2),
    layers: [
      ...shown.map(({ day, not_yet, back_and_well }) =>
        textAt({ x: axis.x(day), y, text: `${not_yet} + ${back_and_well}`, size: small, align: "center" }),
      ),
      ...(theme.names === "above"
        ? []
        : [textAt({ x: axis.width + small * 1.7, y, text: followedTitle, size: small })]),
    ],
  };
}

function timeTitlePanelOf({ axis, plan, theme }: Scene): Panel {
  const { base } = theme.font;
  const height = Math.round(lineHeight(base) * 1.3);
  return {
    height,
    layers: [
      textAt({ x: axis.width / 2, y: height / 2, text: timeTitle(plan), size: base, align: "center" }),
    ],
  };
}
