// When few are never back: does the interval of the mean days not yet back hold the truth, and how can its data tell that it may not?
// node simulate.mjs > results.csv. Nothing of the toolkit is used.
const write = (line) => process.stdout.write(`${line}\n`);
const draws = 4000;
const horizon = 182;
const spread = 0.45;

/** Mulberry32, a small seeded generator of uniform numbers. */
let state = 17;
function uniform() {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

/** Two-sided 95 % critical value of Student's t by Hill's expansion (1970, Algorithm 396), exact to three digits from 9 degrees of freedom on. */
function tCritical(df) {
  const x = 1.959964;
  const g1 = (x ** 3 + x) / 4;
  const g2 = (5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96;
  const g3 = (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384;
  return x + g1 / df + g2 / df ** 2 + g3 / df ** 3;
}

/** Largest share of which k or fewer of n are seen in 2.5 % of draws: upper exact limit. */
function upperExact(k, n) {
  let [low, high] = [k / n, 1];
  for (let round = 0; round < 60; round++) {
    const p = (low + high) / 2;
    let term = (1 - p) ** n;
    let sum = term;
    for (let i = 1; i <= k; i++) {
      term *= ((n - i + 1) / i) * (p / (1 - p));
      sum += term;
    }
    if (sum > 0.025) low = p;
    else high = p;
  }
  return low;
}
const known = new Map();
function upperOf(k, n) {
  const key = k * 1000 + n;
  if (!known.has(key)) known.set(key, upperExact(k, n));
  return known.get(key);
}

/** Days not yet back of one injury, cut at the horizon; whoever is never back has all of them. */
const daysOf = ({ never, median }) =>
  uniform() < never ? horizon : Math.min(horizon, Math.ceil(median * Math.exp(spread * normal())));

/** Mean with limits by Student's t on the logit of its part of the horizon. */
function meanOf(days) {
  const n = days.length;
  const mean = days.reduce((sum, day) => sum + day, 0) / n;
  const variance = days.reduce((sum, day) => sum + (day - mean) ** 2, 0) / n / (n - 1);
  const part = mean / horizon;
  const logit = Math.log(part / (1 - part));
  const reach = (tCritical(n - 1) * Math.sqrt(variance)) / horizon / (part * (1 - part));
  const back = (value) => horizon / (1 + Math.exp(-value));
  return { mean, lower: back(logit - reach), upper: back(logit + reach) };
}

/** Further than this many times its distance from the mean, and the upper limit is no limit. */
const tooFar = 2.5;

/** Whether as many never back as the data cannot exclude would carry the mean too far beyond its interval. */
function couldPass(days, { mean, upper }) {
  const n = days.length;
  const never = days.filter((day) => day === horizon).length;
  if (never === n) return false;
  const ofOthers = (mean * n - never * horizon) / (n - never);
  const share = upperOf(never, n);
  return share * horizon + (1 - share) * ofOthers - mean > tooFar * (upper - mean);
}

const percent = (part, whole) => (whole === 0 ? "" : ((100 * part) / whole).toFixed(1));
write(
  "median,never_back,n,coverage,none_seen,coverage_if_some_seen,warned,coverage_if_not_warned,coverage_if_warned",
);
for (const median of [20, 30, 50, 75])
  for (const never of [0, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2])
    for (const n of [10, 20, 40, 80, 200]) {
      let truth = 0;
      const many = 200_000;
      for (let i = 0; i < many; i++) truth += daysOf({ never, median }) / many;
      const counts = { held: 0, none: 0, heldIfSome: 0, warned: 0, heldIfWarned: 0 };
      for (let draw = 0; draw < draws; draw++) {
        const days = Array.from({ length: n }, () => daysOf({ never, median }));
        const found = meanOf(days);
        const holds = Number(found.lower <= truth && truth <= found.upper);
        const none = Number(days.every((day) => day < horizon));
        const warned = Number(couldPass(days, found));
        counts.held += holds;
        counts.none += none;
        counts.heldIfSome += holds * (1 - none);
        counts.warned += warned;
        counts.heldIfWarned += holds * warned;
      }
      write(
        [
          median,
          never,
          n,
          percent(counts.held, draws),
          percent(counts.none, draws),
          percent(counts.heldIfSome, draws - counts.none),
          percent(counts.warned, draws),
          percent(counts.held - counts.heldIfWarned, draws - counts.warned),
          percent(counts.heldIfWarned, counts.warned),
        ].join(","),
      );
    }
