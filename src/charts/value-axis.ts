/** An axis of values with round ticks. */
export interface ValueAxis {
  readonly domain: readonly [number, number];
  readonly ticks: readonly number[];
}

/** A linear axis that holds all values and nought, ending at round numbers. */
export function linearAxis(values: readonly number[], ticks: number): ValueAxis {
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)];
  const step = roundStep((high - low || 1) / ticks);
  const [first, last] = [Math.floor(low / step + 1e-9), Math.ceil((high || step) / step - 1e-9)];
  const marks = Array.from({ length: last - first + 1 }, (_, index) => tidy((first + index) * step));
  return { domain: [marks[0]!, marks.at(-1)!], ticks: marks };
}

/** The smallest of 1, 2 or 5 times a power of ten that is not below the width. */
function roundStep(width: number): number {
  const power = 10 ** Math.floor(Math.log10(width));
  return power * ([1, 2, 5, 10].find((factor) => factor * power >= width * (1 - 1e-9)) ?? 10);
}

const tidy = (value: number): number => Number(value.toPrecision(12));

/** Ratios beyond this, or its inverse, run off the axis. */
const farthestRatio = 16;

/** A logarithmic axis in doublings around 1 that holds all values within 1/16 and 16. */
export function ratioAxis(values: readonly number[]): ValueAxis {
  const within = values.map((value) => Math.min(farthestRatio, Math.max(1 / farthestRatio, value)));
  const first = Math.min(-1, ...within.map((value) => Math.floor(Math.log2(value) + 1e-9)));
  const last = Math.max(1, ...within.map((value) => Math.ceil(Math.log2(value) - 1e-9)));
  const ticks = Array.from({ length: last - first + 1 }, (_, index) => 2 ** (first + index));
  return { domain: [ticks[0]!, ticks.at(-1)!], ticks };
}
