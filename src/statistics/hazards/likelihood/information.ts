import { addCrossProducts, mirror } from "./cross-products.js";
import { expectedEvents, timesFactor } from "./exposure.js";
import type { RiskState } from "./risk-state.js";

/**
 * Information where the state stands: the sum over event times of the covariance of the covariates over the risk set, each time
 * multiplied by a factor where there is one.
 *
 * Summed by rows, not by times: X' diag(risk x exposure) X less the outer products of the mean covariates. So the work is linear in rows and
 * goes down columns.
 *
 * @param work reused, one a sorted row
 */
export function informationOf(
  state: RiskState,
  into: Float64Array,
  settings: { readonly work: Float64Array; readonly factor: Float64Array | null },
): void {
  const { layout, second, rest, shifted, tied, tiedPart } = state;
  const { n, size, x, blocks } = layout;
  const { work, factor } = settings;
  expectedEvents(state, work, factor);
  into.fill(0);
  addCrossProducts(into, x, { weights: work, rows: n, factor: 1 });
  addCrossProducts(into, shifted, { weights: timesFactor(second, factor), rows: blocks, factor: -1 });
  const ofTied = new Float64Array(tied.length);
  for (let i = 0; i < tied.length; i++) {
    const block = tied[i]!;
    ofTied[i] = rest[block]! * (factor ? factor[block]! : 1);
  }
  addCrossProducts(into, tiedPart, { weights: ofTied, rows: tied.length, factor: -1 });
  mirror(into, size);
}
