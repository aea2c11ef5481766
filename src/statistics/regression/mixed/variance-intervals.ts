import { minimise } from "../../linear/quasi-newton.js";
import { devianceAt, type Method } from "./criterion.js";
import type { FoundVariance } from "./find-variance.js";
import type { GroupSums } from "./group-sums.js";

/** The figure held, the other parameters free: what they say of L (covariate scaled, not centred) and of the log residual variance. */
interface Parameters {
  readonly ratio: Float64Array;
  readonly logVariance: number;
}

/** One figure and the parameters that stay free beside it. */
export interface Profiled {
  readonly estimate: number;
  /** Free parameters at the estimate. */
  readonly free: Float64Array;
  readonly map: (value: number, free: Float64Array) => Parameters;
  readonly lowest: number;
  readonly highest: number;
  /** A small step of the figure, for where its estimate is 0. */
  readonly unit: number;
}

/** The scaled covariate about its mean from the scaled one about 0: L' = T L T' with T = [1 m; 0 1]. */
function centred({ q, centre, scale }: GroupSums, ratio: Float64Array): Float64Array {
  if (q === 1) return ratio;
  const m = centre / scale;
  const [a, b, d] = [ratio[0]!, ratio[1]!, ratio[3]!];
  const off = b + m * d;
  return Float64Array.of(a + 2 * m * b + m * m * d, off, off, d);
}

/** Derivatives by L from those by L': T' S T. */
function slopeBeforeCentring({ q, centre, scale }: GroupSums, slope: Float64Array): Float64Array {
  if (q === 1) return slope;
  const m = centre / scale;
  const off = slope[1]! + m * slope[0]!;
  return Float64Array.of(slope[0]!, off, off, slope[3]! + 2 * m * slope[1]! + m * m * slope[0]!);
}

const difference = 1e-6;

interface Setting {
  readonly sums: GroupSums;
  readonly method: Method;
  readonly profiled: Profiled;
}

/** The deviance over the free parameters; their derivatives by differences of the map alone, which is nearly quadratic. */
function overFree({ sums, method, profiled }: Setting, value: number) {
  return {
    evaluate: (free: Float64Array): { value: number; gradient: Float64Array } => {
      const here = profiled.map(value, free);
      const ratio = centred(sums, here.ratio);
      const found = devianceAt(sums, { ratio, method, logVariance: here.logVariance });
      const slope = slopeBeforeCentring(sums, found.slope);
      const gradient = free.map((x, k) => {
        const step = difference * Math.max(1, Math.abs(x));
        const [up, down] = [1, -1].map((side) =>
          profiled.map(
            value,
            free.map((y, i) => (i === k ? y + side * step : y)),
          ),
        ) as [Parameters, Parameters];
        let sum = found.slopeOfLogVariance * (up.logVariance - down.logVariance);
        for (let i = 0; i < slope.length; i++) sum += slope[i]! * (up.ratio[i]! - down.ratio[i]!);
        return sum / (2 * step);
      });
      return { value: found.value, gradient };
    },
  };
}

/** A root of 0 is a place where every derivative by it is 0; minima are looked for from beside it. */
const besideNought = (start: Float64Array): Float64Array => start.map((x) => (Math.abs(x) < 1e-3 ? 0.03 : x));

/** Smallest deviance with the figure held. */
function profileAt(
  setting: Setting,
  at: { value: number; start: Float64Array },
): { value: number; free: Float64Array } {
  const objective = overFree(setting, at.value);
  if (at.start.length === 0) return { value: objective.evaluate(at.start).value, free: at.start };
  const { value, point } = minimise(objective, {
    start: besideNought(at.start),
    tolerance: 1e-5 * Math.sqrt(setting.sums.n),
    maximumIterations: 100,
  });
  return { value, free: point };
}

/** A difference of deviance that is as good as the cut. */
const closeEnough = 1e-9;

/**
 * Where the deviance has risen by the cut, to one side of the estimate: found outwards by doubling, then by false position with halved ends.
 *
 * @returns the end of the range where it never rises so far before; null where the range has no end
 */
function limitOf(
  setting: Setting,
  to: { readonly side: 1 | -1; readonly cut: number; readonly best: number },
): number | null {
  const { estimate, free, lowest, highest, unit } = setting.profiled;
  const end = to.side === 1 ? highest : lowest;
  let start = free;
  const riseAt = (value: number): number => {
    const there = profileAt(setting, { value, start });
    if (!Number.isFinite(there.value)) return to.cut;
    start = there.free;
    return there.value - to.best - to.cut;
  };
  if (estimate === end) return end;
  let inside = estimate;
  let rise = -to.cut;
  let width = Number.isFinite(end)
    ? Math.min(0.2 * Math.abs(end - estimate), 0.5 * Math.abs(estimate) || unit)
    : 0.3 * estimate || unit;
  let outside = estimate;
  let outer = rise;
  for (let doubling = 0; ; doubling++) {
    const reach = estimate + to.side * width;
    outside = to.side === 1 ? Math.min(end, reach) : Math.max(end, reach);
    outer = riseAt(outside);
    if (!(outer < 0)) break;
    if (outside === end) return end;
    if (doubling > 60) return null;
    inside = outside;
    rise = outer;
    width *= 2;
  }

  for (let round = 0; round < 60; round++) {
    const next = inside + ((outside - inside) * rise) / (rise - outer);
    const there = riseAt(next);
    if (Math.abs(there) < closeEnough || Math.abs(outside - inside) < 1e-12 * Math.abs(next)) return next;
    if (there < 0 === rise < 0) {
      inside = next;
      rise = there;
      outer /= 2;
    } else {
      outside = inside;
      outer = rise;
      inside = next;
      rise = there;
    }
  }
  return inside;
}

/** Profile-likelihood limits of one figure. */
export function profileInterval(
  of: Setting & { readonly found: FoundVariance },
  cut: number,
): { readonly lower: number | null; readonly upper: number | null } {
  const best = of.found.at.value;
  return {
    lower: limitOf(of, { side: -1, cut, best }),
    upper: limitOf(of, { side: 1, cut, best }),
  };
}
