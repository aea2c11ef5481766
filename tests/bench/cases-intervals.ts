import { intervalCurve } from "../../src/statistics/survival/interval-censored/index.js";
import type { BenchCase } from "./case.js";
import { drawsOf } from "./draws.js";

const closes = 1095;

/**
 * 3 draws a row: event = -400 ln u1; first visit floor(60 u2) + 1, then one every floor(60 u3) + 30 days; the visits round the event,
 * the right one infinite where it lies after day 1095.
 */
function intervalsOf(n: number, seed = 11): { readonly left: Float64Array; readonly right: Float64Array } {
  const next = drawsOf(seed);
  const left = new Float64Array(n);
  const right = new Float64Array(n);
  for (let row = 0; row < n; row++) {
    const event = -Math.log(next()) * 400;
    const first = Math.floor(next() * 60) + 1;
    const gap = Math.floor(next() * 60) + 30;
    const visit = Math.max(0, Math.ceil((event - first) / gap));
    const seen = first + visit * gap;
    const late = seen > closes;
    left[row] = late ? first + Math.floor((closes - first) / gap) * gap : visit > 0 ? seen - gap : 0;
    right[row] = late ? Number.POSITIVE_INFINITY : seen;
  }
  return { left, right };
}

export const intervalCases: readonly BenchCase[] = [
  {
    name: "turnbull",
    what: "curve from interval-censored times, to a gradient of 1e-6",
    peer: { name: "R npsurv, or survival where that is not installed, as documented", size: 1000 },
    target: 0.05,
    growth: [1000, 10_000],
    checked: { at: 1000, values: [-2702.40574838], tolerance: 1e-8 },
    prepare: (n) => {
      const columns = intervalsOf(n);
      return () => [intervalCurve(columns, { tolerance: 1e-6 / n }).logLikelihood!];
    },
  },
];
