import { clusterIndex } from "../../shared/clusters.js";
import type { Visits } from "./columns.js";
import type { Piece } from "./end-model.js";
import type { GroupOutputs, Outputs } from "./standardised-outputs.js";

/** Variance of the outputs of a group, or of the difference of two. */
export function variancesOf(
  parts: readonly { readonly sign: 1 | -1; readonly of: GroupOutputs }[],
  from: { readonly visits: Visits; readonly patternOf: Int32Array },
): Outputs {
  const { visits, patternOf } = from;
  const size = parts[0]!.of.outputs.length;
  const summed = new Map<Piece, Outputs[]>();
  for (const { sign, of } of parts)
    for (const [piece, gradients] of of.gradients) {
      const own = summed.get(piece) ?? gradients.map(() => new Float64Array(size));
      gradients.forEach((gradient, j) => {
        for (let o = 0; o < size; o++) own[j]![o]! += sign * gradient[o]!;
      });
      summed.set(piece, own);
    }
  const mix = parts[0]!.of.byPattern.map((_, p) =>
    Float64Array.from({ length: size }, (__, o) =>
      parts.reduce((sum, { sign, of }) => sum + sign * of.byPattern[p]![o]!, 0),
    ),
  );
  const ofRow = (row: number, o: number): number =>
    (visits.weights[row]! / visits.total) * mix[patternOf[row]!]![o]!;
  if (visits.clusters === undefined) return modelVariances({ summed, size, ofRow, n: visits.n });
  const cluster = clusterIndex({ times: visits.left, clusters: visits.clusters });
  const sums = new Float64Array(cluster.count * size);
  for (const [piece, gradients] of summed) {
    const influences = piece.influences();
    const width = gradients.length;
    const stride = influences.length / visits.n;
    for (let row = 0; row < visits.n; row++)
      for (let j = 0; j < width; j++)
        for (let o = 0; o < size; o++)
          sums[cluster.of[row]! * size + o]! += influences[row * stride + j]! * gradients[j]![o]!;
  }
  for (let row = 0; row < visits.n; row++)
    for (let o = 0; o < size; o++) sums[cluster.of[row]! * size + o]! += ofRow(row, o);
  const variance = new Float64Array(size);
  for (let c = 0; c < cluster.count; c++)
    for (let o = 0; o < size; o++) variance[o]! += sums[c * size + o]! ** 2;
  return variance;
}

function modelVariances(of: {
  readonly summed: ReadonlyMap<Piece, readonly Outputs[]>;
  readonly size: number;
  readonly ofRow: (row: number, o: number) => number;
  readonly n: number;
}): Outputs {
  const { summed, size, ofRow, n } = of;
  const variance = new Float64Array(size);
  for (const [{ fit }, gradients] of summed)
    for (const [i, a] of gradients.entries())
      for (const [j, b] of gradients.entries()) {
        const covariance = fit.covariance[i]![j] ?? 0;
        for (let o = 0; o < size; o++) variance[o]! += a[o]! * covariance * b[o]!;
      }
  for (let row = 0; row < n; row++) for (let o = 0; o < size; o++) variance[o]! += ofRow(row, o) ** 2;
  return variance;
}
