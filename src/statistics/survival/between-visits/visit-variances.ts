import { clusterIndex } from "../../shared/clusters.js";
import type { Visits } from "./columns.js";
import type { Piece } from "./end-model.js";
import type { GroupOutputs, Outputs } from "./standardised-outputs.js";

/** What chances of loss add to the spread of outputs, beside the models of the ends. */
export interface LossParts {
  /** Where rows are independent. */
  readonly variance: Outputs;
  /** What a row adds to the outputs. */
  readonly ofRow: (row: number) => Outputs;
}

interface Part {
  readonly sign: 1 | -1;
  readonly of: GroupOutputs;
  readonly loss?: LossParts;
}

/** Variance of the outputs of a group, or of the difference of two. */
export function variancesOf(
  parts: readonly Part[],
  from: { readonly visits: Visits; readonly patternOf: Int32Array },
): Outputs {
  const { visits, patternOf } = from;
  const size = parts[0]!.of.outputs.length;
  const summed = summedGradients(parts);
  const mix = parts[0]!.of.byPattern.map((_, p) =>
    Float64Array.from({ length: size }, (__, o) =>
      parts.reduce((sum, { sign, of }) => sum + sign * of.byPattern[p]![o]!, 0),
    ),
  );
  const ofRow = (row: number, o: number): number =>
    (visits.weights[row]! / visits.total) * mix[patternOf[row]!]![o]!;
  if (visits.clusters === undefined) {
    const variance = modelVariances({ summed, size, ofRow, n: visits.n });
    return variance.map((own, o) => parts.reduce((sum, { loss }) => sum + (loss?.variance[o] ?? 0), own));
  }
  return clusterVariances({ summed, size, ofRow, losses: parts }, { ...visits, clusters: visits.clusters });
}

/** Derivatives of the signed sum of the parts by the parameters of each piece. */
function summedGradients(parts: readonly Pick<Part, "sign" | "of">[]): Map<Piece, Outputs[]> {
  const summed = new Map<Piece, Outputs[]>();
  for (const { sign, of } of parts)
    for (const [piece, gradients] of of.gradients) {
      const own = summed.get(piece) ?? gradients.map((gradient) => new Float64Array(gradient.length));
      gradients.forEach((gradient, j) => {
        for (let o = 0; o < gradient.length; o++) own[j]![o]! += sign * gradient[o]!;
      });
      summed.set(piece, own);
    }
  return summed;
}

/**
 * Variance matrix of the first outputs of a group, or of the difference of two: on its diagonal what `variancesOf` gives.
 *
 * @param from size: how many of the outputs, from the first on
 */
export function covariancesOf(
  parts: readonly Pick<Part, "sign" | "of">[],
  from: { readonly visits: Visits; readonly patternOf: Int32Array; readonly size: number },
): number[][] {
  const { visits, patternOf, size } = from;
  const summed = summedGradients(parts);
  const ofRow = (row: number, o: number): number =>
    (visits.weights[row]! / visits.total) *
    parts.reduce((sum, { sign, of }) => sum + sign * of.byPattern[patternOf[row]!]![o]!, 0);
  const square = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const add = (value: (o: number, other: number) => number): void => {
    for (let o = 0; o < size; o++)
      for (let other = 0; other < size; other++) square[o]![other]! += value(o, other);
  };
  if (visits.clusters === undefined) {
    for (const [{ fit }, gradients] of summed)
      for (const [i, a] of gradients.entries())
        for (const [j, b] of gradients.entries()) {
          const covariance = fit.covariance[i]![j] ?? 0;
          add((o, other) => a[o]! * covariance * b[other]!);
        }
    for (let row = 0; row < visits.n; row++) {
      const own = Array.from({ length: size }, (_, o) => ofRow(row, o));
      add((o, other) => own[o]! * own[other]!);
    }
    return square;
  }
  const { sums, count } = clusterSums(
    { summed, size, ofRow, losses: [] },
    { ...visits, clusters: visits.clusters },
  );
  for (let c = 0; c < count; c++) add((o, other) => sums[c * size + o]! * sums[c * size + other]!);
  return square;
}

interface OfClusters {
  readonly summed: ReadonlyMap<Piece, readonly Outputs[]>;
  readonly size: number;
  readonly ofRow: (row: number, o: number) => number;
  readonly losses: readonly Part[];
}
type InClusters = Pick<Visits, "n" | "left"> & { readonly clusters: ArrayLike<number> };

/** Squares of what each cluster adds. */
function clusterVariances(of: OfClusters, visits: InClusters): Outputs {
  const { size } = of;
  const { sums, count } = clusterSums(of, visits);
  const variance = new Float64Array(size);
  for (let c = 0; c < count; c++) for (let o = 0; o < size; o++) variance[o]! += sums[c * size + o]! ** 2;
  return variance;
}

/** What each cluster adds to each output. */
function clusterSums(
  of: OfClusters,
  { n, left, clusters }: InClusters,
): { readonly sums: Float64Array; readonly count: number } {
  const { summed, size, ofRow, losses } = of;
  const cluster = clusterIndex({ times: left, clusters });
  const sums = new Float64Array(cluster.count * size);
  const add = (row: number, o: number, by: number): void => {
    sums[cluster.of[row]! * size + o]! += by;
  };
  for (const [piece, gradients] of summed) {
    const influences = piece.influences();
    const width = gradients.length;
    const stride = influences.length / n;
    for (let row = 0; row < n; row++)
      for (let j = 0; j < width; j++)
        for (let o = 0; o < size; o++) add(row, o, influences[row * stride + j]! * gradients[j]![o]!);
  }
  for (let row = 0; row < n; row++) {
    for (let o = 0; o < size; o++) add(row, o, ofRow(row, o));
    for (const { sign, loss } of losses)
      for (const [o, own] of loss?.ofRow(row).entries() ?? []) add(row, o, sign * own);
  }
  return { sums, count: cluster.count };
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
