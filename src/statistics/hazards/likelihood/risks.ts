import { exponentials } from "./exponentials.js";
import type { RiskState } from "./risk-state.js";

/** Rows taken together: what is summed is still in the nearest cache when its exponential is taken. */
const rowsAtOnce = 1024;

interface Term {
  readonly b: number;
  readonly column: Float64Array;
}

/** Fills ratio and risk at some coefficients. */
export function setRisks({ layout, offset, ratio, risk }: RiskState, beta: ArrayLike<number>): void {
  const { n, weight, x } = layout;
  const terms: Term[] = [];
  x.forEach((column, j) => {
    if (beta[j] !== 0) terms.push({ b: beta[j]!, column });
  });
  if (offset) ratio.set(offset);
  else ratio.fill(terms.length === 0 ? 1 : 0);
  if (terms.length > 0 || offset)
    for (let from = 0; from < n; from += rowsAtOnce) {
      const range = { from, to: Math.min(n, from + rowsAtOnce) };
      for (let first = 0; first < terms.length; first += 4)
        addColumns(ratio, terms.slice(first, first + 4), range);
      exponentials(ratio, range);
    }
  if (weight) for (let i = 0; i < n; i++) risk[i] = weight[i]! * ratio[i]!;
}

/** Adds up to four columns times their coefficients, so that the sum is read and written once for all of them. */
function addColumns(
  into: Float64Array,
  terms: readonly Term[],
  { from, to }: { readonly from: number; readonly to: number },
): void {
  const [one, two, three, four] = terms as [Term, ...Term[]];
  const p = one.column;
  const bp = one.b;
  if (two === undefined) {
    for (let i = from; i < to; i++) into[i]! += bp * p[i]!;
    return;
  }
  const none = { b: 0, column: p };
  const [q, r, s] = [two.column, (three ?? none).column, (four ?? none).column];
  const [bq, br, bs] = [two.b, (three ?? none).b, (four ?? none).b];
  for (let i = from; i < to; i++) into[i]! += bp * p[i]! + bq * q[i]! + (br * r[i]! + bs * s[i]!);
}
