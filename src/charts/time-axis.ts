import type { CurveResult } from "../study/results.js";
import type { Json } from "./figure.js";

/** The axis of time, in days below and weeks in its labels. */
export interface TimeAxis {
  readonly endDay: number;
  /** Days that are labelled; where there is a table of numbers at risk, its days. */
  readonly ticks: readonly number[];
  readonly width: number;
  /** Place of a day, in pixels from the start of the plot. */
  readonly x: (day: number) => number;
  /** The same axis as the encoding of a field; `labelled` draws ticks and weeks, `bare` only the lines across the plot. */
  readonly encoding: (field: string, look: "labelled" | "bare") => Json;
}

/** What is drawn along the axis: until when, and the days whose numbers stand under it. */
export interface Timed extends Pick<CurveResult, "last_day"> {
  readonly number_at_risk: readonly { readonly day: number }[];
}

export function timeAxis(
  curves: readonly Timed[],
  { width, size }: { width: number; size: number },
): TimeAxis {
  const lastDay = Math.max(7, ...curves.map((curve) => curve.last_day));
  const endDay = 7 * Math.ceil(lastDay / 7);
  const x = (day: number) => (day / endDay) * width;
  const ticks = tickDays(curves, { endDay, apart: (size * 2.6 * endDay) / width });
  return {
    endDay,
    ticks,
    width,
    x,
    encoding: (field, look) => ({
      field,
      type: "quantitative",
      scale: { domain: [0, endDay], nice: false },
      axis: {
        title: null,
        values: ticks,
        grid: true,
        domain: look === "labelled",
        ticks: look === "labelled",
        labels: look === "labelled",
        labelExpr: "format(datum.value / 7, '.3~r')",
      },
    }),
  };
}

/** The days of the tables of numbers at risk, thinned to leave room for the numbers, and carried on to the end of the axis. */
function tickDays(curves: readonly Timed[], { endDay, apart }: { endDay: number; apart: number }): number[] {
  const listed = curves.flatMap(({ number_at_risk }) => number_at_risk.map(({ day }) => day));
  const days = [...new Set([0, ...listed])].filter((day) => day <= endDay).sort((a, b) => a - b);
  const step = days.length > 1 ? days.at(-1)! - days.at(-2)! : 7 * Math.ceil(endDay / 49);
  for (let day = days.at(-1)! + step; day <= endDay; day += step) days.push(day);
  const kept: number[] = [];
  for (const day of days) if (kept.length === 0 || day - kept.at(-1)! >= apart) kept.push(day);
  return kept;
}
