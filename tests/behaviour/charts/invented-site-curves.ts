import { seededGenerator } from "../../../src/statistics/index.js";
import { pooledShare } from "../../../src/statistics/pooling/index.js";
import type { PooledCurveShown } from "../../../src/words/pooling/pooled-curve-shown.js";

const landmarks = [42, 56, 70, 91, 119, 182];

/** Curves of invented sites, pooled at agreed days or, `coarse` being false, drawn as if the rows were shared. SYNTHETIC. */
export function inventedSiteCurves(count: number, { coarse = true } = {}): PooledCurveShown {
  const generator = seededGenerator(11, count);
  const sites = Array.from({ length: count }, (_, i) => {
    const n = count === 1 ? 60 : Math.round(6 * 60 ** (i / (count - 1)));
    const slow = Math.exp(0.25 * generator.normal());
    const times = Array.from({ length: n }, () => Math.round(80 * slow * Math.exp(0.5 * generator.normal())));
    return {
      site: `Site ${i + 1}`,
      n,
      times: times.sort((a, b) => a - b),
      last: 140 + generator.integer(60),
    };
  });
  const backBy = (times: readonly number[], day: number) => times.filter((time) => time <= day).length;
  const days = coarse ? landmarks : Array.from({ length: 60 }, (_, i) => 3 * (i + 1));
  const points = days.map((day) => {
    const found = pooledShare({
      events: sites.map(({ times }) => backBy(times, day)),
      sizes: sites.map(({ n }) => n),
    });
    const { lower, upper } = found.prediction;
    return {
      day,
      share: found.estimate!,
      lower: found.lower,
      upper: found.upper,
      prediction: lower === null || upper === null || !coarse ? null : { lower, upper },
    };
  });
  return {
    id: `${coarse ? "agreed-days" : "all-days"}-${count}`,
    title: "How long until full climbing, at each site and pooled?",
    shareTitle: "share back to full climbing",
    timeTitle: "weeks since the injury",
    sites: sites.map(({ site, n, times, last }) => ({
      site,
      points: [...new Set(times.filter((time) => time <= last))].map((day) => ({
        day,
        share: backBy(times, day) / n,
      })),
      lastDay: last,
      coarse: false,
    })),
    pooled: {
      points,
      lastDay: days.at(-1)!,
      coarse,
      sites: count,
      injuries: sites.reduce((sum, { n }) => sum + n, 0),
      method: "random effects by exact counts, day by day",
    },
    level: 0.95,
    synthetic: true,
  };
}
