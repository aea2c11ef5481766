import { clusterIndex } from "../survival/robust-variance.js";
import type { HazardColumns, HazardLayout } from "./hazards-layout.js";
import type { Ties } from "./hazards-pass.js";
import { scoreResiduals } from "./hazards-residuals.js";

/** Sandwich covariance on the standardised scale: V (sum over clusters of u u') V. */
export function sandwich(
  columns: HazardColumns,
  bread: {
    readonly inverse: Float64Array;
    readonly layout: HazardLayout;
    readonly beta: Float64Array;
    readonly ties: Ties;
  },
): Float64Array {
  const { inverse, layout, beta, ties } = bread;
  const { size, n } = layout;
  const residuals = scoreResiduals(layout, { beta, ties });
  const cluster = clusterIndex(columns);
  const sums = new Float64Array(cluster.count * size);
  for (let row = 0; row < n; row++)
    for (let j = 0; j < size; j++)
      sums[(cluster.of[row] as number) * size + j]! +=
        (columns.weights?.[row] ?? 1) * (residuals[row * size + j] as number);
  const result = new Float64Array(size * size);
  const moved = new Float64Array(size);
  for (let c = 0; c < cluster.count; c++) {
    for (let j = 0; j < size; j++) {
      let value = 0;
      for (let k = 0; k < size; k++)
        value += (inverse[j * size + k] as number) * (sums[c * size + k] as number);
      moved[j] = value;
    }
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++) result[j * size + k]! += (moved[j] as number) * (moved[k] as number);
  }
  return result;
}
