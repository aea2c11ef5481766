import type { PooledShown } from "../words/pooling/pooled-shown.js";
import type { Unit } from "../words/units.js";
import { linearAxis, ratioAxis, type ValueAxis } from "./value-axis.js";

/** The axis of a figure of sites, and the place of a value on it. */
export interface SiteAxis extends ValueAxis {
  readonly width: number;
  /** Pixels from the start of the plot; outside 0 to `width` where the value lies beyond the axis. */
  readonly x: (value: number) => number;
  readonly label: (tick: number) => string;
}

const shares: ValueAxis = { domain: [0, 1], ticks: [0, 0.2, 0.4, 0.6, 0.8, 1] };

/** How far beyond what the others show a wide interval of one site may stretch the axis, as part of what they span. */
const stretch = 0.35;

const known = (values: readonly (number | null)[]): number[] => values.filter((value) => value !== null);

/** Everything that must be on the axis: estimates, the pooled answer, the value of no difference. */
function core({ sites, pooled, compared }: PooledShown): number[] {
  return known([
    ...sites.map(({ estimate }) => estimate),
    pooled.estimate,
    pooled.interval.lower,
    pooled.interval.upper,
    pooled.prediction.lower,
    pooled.prediction.upper,
    ...(compared === null ? [] : [compared.nullValue]),
  ]);
}

/** Limits of sites are shown as far as they leave the others legible; beyond it stands an arrow. */
function valuesOf(shown: PooledShown): number[] {
  const must = core(shown);
  const [low, high] = [Math.min(...must), Math.max(...must)];
  const room = stretch * (high - low);
  const ends = known(shown.sites.flatMap(({ lower, upper }) => [lower, upper]));
  return must.length === 0
    ? []
    : [...must, ...ends.map((end) => Math.min(high + room, Math.max(low - room, end)))];
}

function axisOf(shown: PooledShown): ValueAxis {
  if (shown.unit === "share") return shares;
  const values = valuesOf(shown);
  return shown.unit === "ratio" ? ratioAxis(values) : linearAxis(values, 6);
}

const inHundredths: readonly Unit[] = ["share", "percentage points"];
const minus = (text: string): string => text.replace("-", "\u2212");

function labelOf(unit: Unit): (tick: number) => string {
  if (unit === "ratio") return (tick) => (tick < 1 ? `1/${Math.round(1 / tick)}` : `${tick}`);
  const times = inHundredths.includes(unit) ? 100 : 1;
  return (tick) => minus(String(Number((times * tick).toPrecision(12))));
}

export function siteAxis(shown: PooledShown, width: number): SiteAxis {
  const axis = axisOf(shown);
  const on = shown.unit === "ratio" ? Math.log2 : (value: number) => value;
  const [from, to] = [on(axis.domain[0]), on(axis.domain[1])];
  return {
    ...axis,
    width,
    x: (value) => ((on(value) - from) / (to - from)) * width,
    label: labelOf(shown.unit),
  };
}
