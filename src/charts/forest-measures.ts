import { type EffectUnit, type MeasureFacts, measureOf } from "../study/measures/index.js";
import type { EffectResult } from "../study/results.js";
import { linearAxis, ratioAxis, type ValueAxis } from "./value-axis.js";

const minus = (number: string): string => `replace(${number}, '-', '\u2212')`;

/** Room on either side of nought, so that both directions can be seen. */
function bothSides(values: readonly number[]): ValueAxis {
  const some = 0.15 * Math.max(0, ...values.map(Math.abs)) || 1;
  return linearAxis([...values, some, -some], 5);
}

/** How the axis of a measure is drawn: the scale of the figure, and the axis that holds some values. */
export const axes: Readonly<
  Record<
    MeasureFacts["axis"],
    { readonly type: "linear" | "log"; readonly of: (values: readonly number[]) => ValueAxis }
  >
> = {
  linear: { type: "linear", of: bothSides },
  logarithmic: { type: "log", of: ratioAxis },
};

/** The expression of a tick's label. */
export const ticks: Readonly<Record<EffectUnit, string>> = {
  share: minus("format(100 * datum.value, '.3~r')"),
  d: minus("format(datum.value, '.4~r')"),
  ratio: "datum.value < 1 ? '1/' + format(1 / datum.value, '.0f') : format(datum.value, '.0f')",
  mm: minus("format(datum.value, '.3~r')"),
};

/** Whether the axis runs from right to left: the compared group does better on the right of every measure. */
export const isTurned = (measure: EffectResult["measure"]): boolean => measureOf(measure).above !== "better";
