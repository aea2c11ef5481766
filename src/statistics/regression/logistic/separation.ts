import type { Separation } from "./logistic-types.js";
import { coordinatesAlong } from "./objective.js";
import type { Recession } from "./recession.js";

/** What becomes of one coefficient where the likelihood has no finite maximum. */
export interface Fate {
  readonly finite: boolean;
  readonly limit: "zero" | "infinity" | null;
}

/** Part of the whole below which a coefficient has no part in a direction. */
const notInvolved = 1e-6;

const lengthOf = (vector: Float64Array): number => Math.sqrt(vector.reduce((sum, x) => sum + x * x, 0));

/** @param functional the coefficient as a linear function on the basis */
export function fateOf(functional: Float64Array, recession: Recession | null): Fate {
  if (recession === null) return { finite: true, limit: null };
  const small = notInvolved * lengthOf(functional);
  if (lengthOf(coordinatesAlong(recession.undetermined, functional)) <= small)
    return { finite: true, limit: null };
  for (const slope of coordinatesAlong(recession.directions, functional))
    if (Math.abs(slope) > small) return { finite: false, limit: slope > 0 ? "infinity" : "zero" };
  return { finite: false, limit: null };
}

/** The first direction by term, scaled so that its largest part times the spread of the column is 1. */
function directionByTerm(
  first: Float64Array,
  terms: readonly { readonly functional: Float64Array | null; readonly spread: number }[],
): number[] {
  const parts = terms.map(({ functional }) =>
    functional === null ? 0 : coordinatesAlong([first], functional)[0]!,
  );
  const effects = parts.map((part, k) => Math.abs(part) * terms[k]!.spread!);
  const most = Math.max(...effects);
  return parts.map((part, k) => (effects[k]! > notInvolved * most ? part / most : 0));
}

/** Root mean square of a column about its mean; 1 for the intercept. */
export function spreadOf(values: ArrayLike<number>): number {
  const n = values.length;
  let sum = 0;
  for (let row = 0; row < n; row++) sum += values[row]!;
  const mean = sum / n;
  let squares = 0;
  for (let row = 0; row < n; row++) squares += (values[row]! - mean) ** 2;
  return Math.sqrt(squares / n);
}

/** What is said of a recession: kind, terms, direction. */
export function separationOf(
  recession: Recession,
  of: {
    readonly names: readonly string[];
    readonly functionals: readonly (Float64Array | null)[];
    readonly spreads: readonly number[];
  },
): Separation {
  const direction = directionByTerm(
    recession.directions[0]!,
    of.functionals.map((functional, k) => ({ functional, spread: of.spreads[k]! })),
  );
  const certain = recession.strict.reduce((sum, one) => sum + one, 0);
  return {
    kind: certain === recession.strict.length ? "complete" : "quasi-complete",
    terms: of.names.filter((_, k) => direction[k] !== 0),
    direction,
    certain,
  };
}
