import type { EffectResult } from "../study/results.js";
import { linearAxis, ratioAxis, type ValueAxis } from "./value-axis.js";

/** How one measure of the forest is scaled. */
export interface MeasureLook {
  readonly none: number;
  readonly scale: "linear" | "log";
  readonly axis: (values: readonly number[]) => ValueAxis;
  /** The expression of a tick's label. */
  readonly tick: string;
  /** The side on which the compared group does what `better` of its words says. */
  readonly betterSide: "left" | "right";
}

const minus = (number: string): string => `replace(${number}, '-', '\u2212')`;

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

export const measures: Readonly<Record<EffectResult["measure"], MeasureLook>> = {
  landmark_difference: {
    ...linear,
    tick: minus("format(100 * datum.value, '.3~r')"),
    betterSide: "right",
  },
  restricted_mean_difference: {
    ...linear,
    tick: minus("format(datum.value, '.4~r')"),
    betterSide: "left",
  },
  hazard_ratio: {
    none: 1,
    scale: "log",
    axis: ratioAxis,
    tick: "datum.value < 1 ? '1/' + format(1 / datum.value, '.0f') : format(datum.value, '.0f')",
    betterSide: "right",
  },
  distance_change_difference: {
    ...linear,
    tick: minus("format(datum.value, '.3~r')"),
    betterSide: "left",
  },
};
