import { binomialDensity } from "../shared/binomial.js";
import type { FourCells } from "./four-cells.js";

/** The tables with the margins of a given one: the first cell runs from `least` to `most`. */
export interface Margins {
  readonly n1: number;
  readonly n2: number;
  /** Events in both groups together. */
  readonly events: number;
  readonly least: number;
  readonly most: number;
}

export function marginsOf({ a, b, c, d }: FourCells): Margins {
  const [n1, n2, events] = [a + b, c + d, a + c];
  return { n1, n2, events, least: Math.max(0, events - n2), most: Math.min(n1, events) };
}

/** P(first cell = x) by chance alone, from three binomial probabilities so that nothing overflows. */
export function hypergeometricDensity(x: number, { n1, n2, events, least, most }: Margins): number {
  if (x < least || x > most) return 0;
  const n = n1 + n2;
  if (events === 0 || events === n) return 1;
  const p = events / n;
  const own = binomialDensity(x, { n: n1, p }) * binomialDensity(events - x, { n: n2, p });
  return own / binomialDensity(events, { n, p });
}

/** How much likelier x + 1 is than x, by chance alone. */
export const stepUp = (x: number, { n1, n2, events }: Margins): number =>
  ((n1 - x) / (x + 1)) * ((events - x) / (n2 - events + x + 1));

/** The likeliest first cell. */
export const modeOf = ({ n1, n2, events, least, most }: Margins): number =>
  Math.min(most, Math.max(least, Math.floor(((n1 + 1) / (n1 + n2 + 2)) * (events + 1))));

/** Terms that no longer change a sum. */
const negligible = 1e-18;

/** P(first cell <= x): summed away from the mode, or what the sum above leaves. */
export function hypergeometricLowerTail(x: number, margins: Margins): number {
  if (x < margins.least) return 0;
  if (x >= margins.most) return 1;
  return x < modeOf(margins) ? sumDown(x, margins) : 1 - sumUp(x + 1, margins);
}

/** P(first cell >= x). */
export function hypergeometricUpperTail(x: number, margins: Margins): number {
  if (x > margins.most) return 0;
  if (x <= margins.least) return 1;
  return x > modeOf(margins) ? sumUp(x, margins) : 1 - sumDown(x - 1, margins);
}

function sumDown(x: number, margins: Margins): number {
  let term = hypergeometricDensity(x, margins);
  let sum = 0;
  for (let i = x; i >= margins.least && term > negligible * sum; i--) {
    sum += term;
    term /= stepUp(i - 1, margins);
  }
  return sum;
}

function sumUp(x: number, margins: Margins): number {
  let term = hypergeometricDensity(x, margins);
  let sum = 0;
  for (let i = x; i <= margins.most && term > negligible * sum; i++) {
    sum += term;
    term *= stepUp(i, margins);
  }
  return sum;
}
