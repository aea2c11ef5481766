import type { EffectResult } from "../study/results.js";
import { looks, type NumberLook } from "./numbers.js";
import { linearAxis, ratioAxis, type ValueAxis } from "./value-axis.js";

/** How one measure of the forest is named, scaled and read. */
export interface MeasureLook {
  readonly title: string;
  readonly none: number;
  readonly scale: "linear" | "log";
  readonly axis: (values: readonly number[]) => ValueAxis;
  /** Numbers of the text column, and the expression of a tick's label. */
  readonly number: NumberLook;
  readonly tick: string;
  /** The side on which the compared group does what `better` says. */
  readonly betterSide: "left" | "right";
  readonly better: "sooner" | "narrowed more";
  readonly worse: "later" | "narrowed less";
}

const minus = (number: string): string => `replace(${number}, '-', '\u2212')`;
const sooner = { better: "sooner", worse: "later" } as const;

/** Room on either side of nought, so that both directions can be seen. */
function bothSides(values: readonly number[]): ValueAxis {
  const some = 0.15 * Math.max(0, ...values.map(Math.abs)) || 1;
  return linearAxis([...values, some, -some], 5);
}

const linear = {
  none: 0,
  scale: "linear",
  axis: bothSides,
} as const;

/** In the order of the figure. */
export const measures: Readonly<Record<EffectResult["measure"], MeasureLook>> = {
  landmark_difference: {
    ...linear,
    ...sooner,
    title: "difference of the shares back, percentage points",
    number: looks.percentagePoints,
    tick: minus("format(100 * datum.value, '.3~r')"),
    betterSide: "right",
  },
  restricted_mean_difference: {
    ...linear,
    ...sooner,
    title: "difference of the restricted mean times, days",
    number: looks.days,
    tick: minus("format(datum.value, '.4~r')"),
    betterSide: "left",
  },
  hazard_ratio: {
    ...sooner,
    title: "hazard ratio of return, logarithmic axis",
    none: 1,
    scale: "log",
    axis: ratioAxis,
    number: looks.ratio,
    tick: "datum.value < 1 ? '1/' + format(1 / datum.value, '.0f') : format(datum.value, '.0f')",
    betterSide: "right",
  },
  distance_change_difference: {
    ...linear,
    title: "difference of the changes of the tendon-phalanx distance, mm",
    number: looks.millimetres,
    tick: minus("format(datum.value, '.3~r')"),
    betterSide: "left",
    better: "narrowed more",
    worse: "narrowed less",
  },
};
