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
  const marks = Array.from({ length: last - first + 1 }, (_, i) => tidy((first + i) * step));
  return { domain: [marks[0]!, marks.at(-1)!], ticks: marks };
}

/** The smallest of 1, 2 or 5 times a power of ten that is not below the width. */
function roundStep(width: number): number {
  const [, exponent] = width.toExponential().split("e");
  const power = powerOfTen(Number(exponent));
  return power * ([1, 2, 5, 10].find((factor) => factor * power >= width * (1 - 1e-9)) ?? 10);
}

/** The double nearest to a power of ten, read from its digits: an engine's own powers differ in the last digit. */
const powerOfTen = (exponent: number): number => Number(`1e${exponent}`);

const tidy = (value: number): number => Number(value.toPrecision(12));

/** Ratios beyond the first and last run off the axis. */
const doublings = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16] as const;

/** A logarithmic axis in doublings around 1, at least from 1/2 to 2, that holds all values within 1/16 and 16. */
export function ratioAxis(values: readonly number[]): ValueAxis {
  const [low, high] = [Math.min(1 / 2, ...values), Math.max(2, ...values)];
  const first = doublings.findLastIndex((tick) => tick <= low * (1 + 1e-9));
  const last = doublings.findIndex((tick) => tick >= high * (1 - 1e-9));
  const ticks = doublings.slice(Math.max(first, 0), last === -1 ? undefined : last + 1);
  return { domain: [ticks[0]!, ticks.at(-1)!], ticks };
}
