import { normalUpperTail } from "../../shared/distributions.js";

/** Ten-point rule of Gauss and Legendre on [-1, 1]: the positive nodes and their weights. */
const nodes = [
  0.14887433898163122, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717,
] as const;
const weights = [
  0.29552422471475287, 0.26926671930999635, 0.21908636251598204, 0.1494513491505806, 0.06667134430868814,
] as const;

function integral(f: (x: number) => number, low: number, high: number): number {
  const middle = (low + high) / 2;
  const half = (high - low) / 2;
  let sum = 0;
  nodes.forEach((node, i) => {
    sum += weights[i]! * (f(middle - half * node) + f(middle + half * node));
  });
  return sum * half;
}

const density = (x: number, variance: number): number =>
  Math.exp((-x * x) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance);

/** P(low < Z < high) by the nearer tails. */
function between(low: number, high: number): number {
  if (low > 0) return normalUpperTail(low) - normalUpperTail(high);
  if (high < 0) return normalUpperTail(-high) - normalUpperTail(-low);
  return 1 - normalUpperTail(-low) - normalUpperTail(high);
}

/** Images this many standard deviations away add nothing. */
const farAway = 9;

/**
 * Weight of the paths that go from x at `from` to 0 at 1 and stay between -k and k until `to`: the images of x, each followed by the
 * closed integral over the value at `to`.
 */
function onwards(x: number, range: { k: number; from: number; to: number }): number {
  const { k, from, to } = range;
  const rest = 1 - from;
  const deviation = Math.sqrt(((to - from) * (1 - to)) / rest);
  const one = (image: number): number => {
    const middle = (image * (1 - to)) / rest;
    const inside =
      deviation > 0
        ? between((-k - middle) / deviation, (k - middle) / deviation)
        : Number(Math.abs(middle) <= k);
    return density(image, rest) * inside;
  };
  const images = Math.ceil((farAway * Math.sqrt(rest)) / (4 * k)) + 1;
  let sum = 0;
  for (let n = -images; n <= images; n++) sum += one(x + 4 * n * k) - one(2 * k - x + 4 * n * k);
  return sum * Math.sqrt(2 * Math.PI);
}

/** Points between 0 and k, close together where the integrand bends: within `width` of 0 and within `edge` of k. */
function panels(k: number, width: number, edge: number): number[] {
  const points = new Set([0, k]);
  for (let i = 0.5 * width; i < k && i < farAway * width; i += 0.5 * width) points.add(i);
  for (let back = 0.25 * edge; back < k; back = back < 8 * edge ? back + 0.5 * edge : 2 * back)
    points.add(k - back);
  return [...points].sort((a, b) => a - b);
}

/**
 * P(|B(u)| <= k for all u from `from` to `to`) of the Brownian bridge, 0 <= from <= to < 1, k > 0: by reflection between the two
 * boundaries, integrated over the value at `from`.
 *
 * @source Hall & Wellner 1980, Biometrika 67:133 (from = 0); Chung 1986, Stat Probab Lett 5:47
 */
export function probabilityOfBridgeStaying(k: number, range: { from: number; to: number }): number {
  const { from, to } = range;
  if (from === 0) return onwards(0, { k, from, to });
  const points = panels(k, Math.sqrt(from), Math.sqrt(Math.max(to - from, 1e-300)));
  let sum = 0;
  for (let i = 1; i < points.length; i++)
    sum += integral((x) => density(x, from) * onwards(x, { k, from, to }), points[i - 1]!, points[i]!);
  return 2 * sum;
}
