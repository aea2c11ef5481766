/**
 * What Stirling's formula leaves out of log n!: log n! - (n + 1/2) log n + n - log(2 pi) / 2, for n above 0 (whole or not).
 *
 * @source Loader 2000, Fast and accurate computation of binomial probabilities (technical note)
 */
export function stirlingError(n: number): number {
  let from = n;
  let steps = 0;
  for (; from < 15; from++) steps += (from + 0.5) * Math.log1p(1 / from) - 1;
  const square = from * from;
  let sum = 1 / 156;
  for (const term of [691 / 360360, 1 / 1188, 1 / 1680, 1 / 1260, 1 / 360, 1 / 12]) sum = term - sum / square;
  return steps + sum / from;
}

/**
 * x log(x / expected) + expected - x, without losing digits where the two are near; x >= 0, expected > 0.
 *
 * @source Loader 2000, Fast and accurate computation of binomial probabilities
 */
export function deviance(x: number, expected: number): number {
  if (x === 0) return expected;
  const apart = x - expected;
  if (Math.abs(apart) >= 0.1 * (x + expected)) return x * Math.log(x / expected) - apart;
  const ratio = apart / (x + expected);
  let sum = apart * ratio;
  let term = 2 * x * ratio;
  for (let odd = 3; ; odd += 2) {
    term *= ratio * ratio;
    const next = sum + term / odd;
    if (next === sum) return sum;
    sum = next;
  }
}
