import { seededGenerator, wilson } from "../../../src/statistics/index.js";
import { pooledShare, type RandomEffects, randomEffects } from "../../../src/statistics/pooling/index.js";
import type { PooledShown, SiteAnswer } from "../../../src/words/pooling/pooled-shown.js";

const names = [
  "Alpine Hand Unit",
  "Basin Clinic",
  "City Hospital",
  "Delta Hand Centre",
  "East Sports Medicine",
  "Fjord Clinic",
  "Glacier Hand Surgery",
  "Harbour Hospital",
  "Island Practice",
  "Junction Hand Therapy",
  "Karst Climbing Clinic",
  "Lakeside University Hospital, Department of Hand Surgery",
];
const nameOf = (i: number): string => (i < names.length ? names[i]! : `Site ${i + 1}`);

const sizesOf = (count: number): readonly number[] =>
  count === 1
    ? [84]
    : Array.from({ length: count }, (_, i) => Math.round(6 * (400 / 6) ** (i / (count - 1))));

const method = "random effects by exact counts, restricted likelihood";

/** A share at invented sites of 6 to 400 injuries. SYNTHETIC. */
export function inventedShare(count: number, seed = 5): PooledShown {
  const generator = seededGenerator(seed, count);
  const sizes = sizesOf(count);
  const shares = sizes.map(() => 1 / (1 + Math.exp(-(0.6 + 0.45 * generator.normal()))));
  const events = sizes.map((n, i) => {
    let back = 0;
    for (let k = 0; k < n; k++) if (generator.uniform() < shares[i]!) back += 1;
    return back;
  });
  const pooled = pooledShare({ events, sizes });
  const limits = { lower: pooled.lower, upper: pooled.upper, reason: pooled.reason && "one site only" };
  return {
    id: `share-${count}`,
    title: "How many were back to full climbing by week 13?",
    axisTitle: "share back to full climbing by week 13, per cent",
    unit: "share",
    compared: null,
    sites: sizes.map((n, i): SiteAnswer => {
      const own = wilson(events[i]!, n);
      return {
        site: nameOf(i),
        injuries: n,
        people: n,
        events: events[i]!,
        estimate: events[i]! / n,
        lower: own.lower,
        upper: own.upper,
        weight: pooled.weights[i]!,
        reason: null,
      };
    }),
    pooled: {
      estimate: pooled.estimate,
      interval: limits,
      prediction: {
        lower: pooled.prediction.lower,
        upper: pooled.prediction.upper,
        reason: pooled.prediction.reason && "not given for so few sites",
      },
      sites: count,
      injuries: sizes.reduce((sum, n) => sum + n, 0),
      people: sizes.reduce((sum, n) => sum + n, 0),
      method,
    },
    level: 0.95,
    synthetic: true,
  };
}

const shownOf = (found: RandomEffects): PooledShown["pooled"]["interval"] => ({
  lower: found.lower,
  upper: found.upper,
  reason: found.reason && "one site only",
});

/** A difference of two groups' shares at such sites, in shares. SYNTHETIC. */
export function differenceAtSites(count: number, seed = 8): PooledShown {
  const generator = seededGenerator(seed, count);
  const sizes = sizesOf(count);
  const errors = sizes.map((n) => Math.sqrt((2 * 2 * 0.24) / n));
  const estimates = errors.map((error) => 0.08 + 0.06 * generator.normal() + error * generator.normal());
  const found = randomEffects({ estimates, variances: errors.map((error) => error ** 2) });
  return {
    id: `difference-${count}`,
    title: "Who was back to full climbing by week 13 more often?",
    axisTitle: "ring less tape, percentage points back by week 13",
    unit: "percentage points",
    compared: { nullValue: 0, leftSide: "tape back more often", rightSide: "ring back more often" },
    sites: sizes.map(
      (n, i): SiteAnswer => ({
        site: nameOf(i),
        injuries: n,
        people: n,
        events: null,
        estimate: estimates[i]!,
        lower: estimates[i]! - 1.96 * errors[i]!,
        upper: estimates[i]! + 1.96 * errors[i]!,
        weight: found.weights[i]!,
        reason: null,
      }),
    ),
    pooled: {
      estimate: found.estimate,
      interval: shownOf(found),
      prediction: {
        lower: found.prediction.lower,
        upper: found.prediction.upper,
        reason: found.prediction.reason && "not given for so few sites",
      },
      sites: count,
      injuries: sizes.reduce((sum, n) => sum + n, 0),
      people: sizes.reduce((sum, n) => sum + n, 0),
      method: "random effects, restricted likelihood",
    },
    level: 0.95,
    synthetic: true,
  };
}

/** One site without an interval, one without an answer, one whose counts are left out. */
export function sitesWithGaps(): PooledShown {
  const whole = differenceAtSites(6);
  const [first, second, third, ...others] = whole.sites as [SiteAnswer, SiteAnswer, SiteAnswer];
  return {
    ...whole,
    id: "difference-gaps",
    sites: [
      { ...first, lower: null, upper: null, weight: 0, reason: "no interval: too few injuries" },
      { ...second, estimate: null, lower: null, upper: null, weight: 0, reason: "follow-up ends earlier" },
      { ...third, injuries: "[left out]" },
      ...others,
    ],
  };
}
