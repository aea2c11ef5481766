import type { Figure } from "./figure.js";
import { groupStyle } from "./group-style.js";
import { pointAt, rectAt } from "./marks.js";
import { page } from "./page.js";
import { endLabels, type StepCurve, shareAxis, stepBand, stepLine } from "./step-curve.js";
import { themes } from "./theme.js";
import { timeAxis } from "./time-axis.js";

/** A figure that nobody sees, with every kind of mark: whoever draws it has the chart library loaded and compiled for the figures of a report. */
export function practiceFigure(): Figure {
  const theme = themes.screen;
  const [width, height] = [400, 200];
  const text = {
    id: "practice",
    title: "practice",
    subtitle: "",
    description: "",
    notes: [],
    synthetic: true,
    individual: false,
  };
  const axis = timeAxis([{ last_day: 70, number_at_risk: [] }], { width, size: theme.font.small });
  const axes = { day: axis.encoding("day", "labelled"), share: shareAxis({ domain: [0, 1], ticks: [0, 1] }) };
  const curve: StepCurve = {
    points: [0, 35].map((day) => ({ day, share: day / 70, lower: day / 80, upper: day / 60 })),
    lastDay: 70,
    style: groupStyle(theme, 1),
    interpolate: "step-after",
  };
  const name = { text: ["practice"], colour: curve.style.colour, x: width, y: height / 2 };
  const layers = [
    stepBand(curve, { axes, opacity: 0.1 }),
    stepLine(curve, { axes, width: theme.line }),
    rectAt({ x: 0, x2: 1, y: 0, y2: 1 }, { color: curve.style.colour }),
    pointAt({ x: 0, y: 0 }, { shape: curve.style.shape, fill: curve.style.colour }),
    ...endLabels([name], { bend: width, x: width, height, beyond: 0, theme }),
  ];
  return page(text, [{ height, layers }], { margins: { left: 100, right: 100 }, theme });
}
