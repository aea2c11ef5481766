import { factorOver } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import { clusterIndex } from "../../shared/clusters.js";
import { withoutRounding } from "../../shared/sandwich-rounding.js";
import type { AcceleratedLayout } from "./accelerated-columns.js";
import { scoresByRow } from "./accelerated-likelihood.js";
import { informationWithShape, type ShapedAscent, scoresWithShape } from "./accelerated-shape.js";
import { errorLawOf, type TimeLaw } from "./error-laws.js";

/** Intercept, coefficients in the covariates' own units, log scale, and the shape where the law has one; and the derivatives of these by the parameters of the layout, flat. */
export interface OwnUnits {
  readonly values: Float64Array;
  readonly derivatives: Float64Array;
}

/** b_j = g_j / (w sd_j), intercept = middle + g_0 / w - sum of b_j mean_j, log scale = -log w. */
export function inOwnUnits(
  layout: AcceleratedLayout,
  { parameters, shape }: Pick<ShapedAscent, "parameters" | "shape">,
): OwnUnits {
  const { size, centre, scale, middle } = layout;
  const all = size + (shape === null ? 1 : 2);
  const w = parameters[size]!;
  const values = new Float64Array(all);
  const derivatives = new Float64Array(all * all);
  let intercept = parameters[0]! / w;
  derivatives[0] = 1 / w;
  for (let j = 1; j < size; j++) {
    const unit = 1 / (w * scale[j - 1]!);
    const mean = centre[j - 1]!;
    values[j] = parameters[j]! * unit;
    intercept -= values[j]! * mean;
    derivatives[j * all + j] = unit;
    derivatives[j * all + size] = -values[j]! / w;
    derivatives[j] = -mean * unit;
  }
  values[0] = intercept + middle;
  derivatives[size] = -intercept / w;
  values[size] = -Math.log(w);
  derivatives[size * all + size] = -1 / w;
  if (shape !== null) {
    values[size + 1] = shape;
    derivatives[all * all - 1] = 1;
  }
  return { values, derivatives };
}

/** D V D', flat. */
function carried(variance: Float64Array, derivatives: Float64Array): Float64Array {
  const all = Math.sqrt(variance.length);
  const half = new Float64Array(all * all);
  const result = new Float64Array(all * all);
  for (let i = 0; i < all; i++)
    for (let j = 0; j < all; j++)
      for (let k = 0; k < all; k++) half[i * all + j]! += derivatives[i * all + k]! * variance[k * all + j]!;
  for (let i = 0; i < all; i++)
    for (let j = 0; j <= i; j++) {
      let value = 0;
      for (let k = 0; k < all; k++) value += half[i * all + k]! * derivatives[j * all + k]!;
      result[i * all + j] = value;
      result[j * all + i] = value;
    }
  return result;
}

/** V (sum over clusters of u u') V. */
function sandwichOf(inverse: Float64Array, sums: Float64Array, clusters: number): Float64Array {
  const all = Math.sqrt(inverse.length);
  const result = new Float64Array(all * all);
  const moved = new Float64Array(all);
  for (let c = 0; c < clusters; c++) {
    for (let j = 0; j < all; j++) {
      moved[j] = 0;
      for (let k = 0; k < all; k++) moved[j]! += inverse[j * all + k]! * sums[c * all + k]!;
    }
    for (let j = 0; j < all; j++) for (let k = 0; k < all; k++) result[j * all + k]! += moved[j]! * moved[k]!;
  }
  return result;
}

/** What the covariances rest on: parameters of the layout (and the shape) that have a finite maximum. */
interface Fitted {
  readonly ascent: ShapedAscent;
  readonly finite: readonly number[];
  readonly derivatives: Float64Array;
  readonly law: TimeLaw;
}

const hasShape = (ascent: ShapedAscent): ascent is ShapedAscent & { readonly shape: number } =>
  ascent.shape !== null;

/** Inverse information over the parameters that are finite. */
function inverseOf(layout: AcceleratedLayout, { ascent, finite }: Fitted): Float64Array {
  const information = hasShape(ascent) ? informationWithShape(layout, ascent) : ascent.at.information;
  return invertFactored(factorOver(information, finite));
}

const scoresOf = (layout: AcceleratedLayout, { ascent, law }: Fitted): Float64Array =>
  hasShape(ascent)
    ? scoresWithShape(layout, ascent)
    : scoresByRow(layout, { parameters: ascent.parameters, law: errorLawOf(law) });

/** What each row moves the estimates by (intercept, coefficients, log scale, shape): its scores by the inverse information; flat by rows. */
export function influencesOf(layout: AcceleratedLayout, fit: Fitted): Float64Array {
  const { finite, derivatives } = fit;
  const inverse = inverseOf(layout, fit);
  const all = Math.sqrt(inverse.length);
  const scores = scoresOf(layout, fit);
  const moves = new Float64Array(all * all);
  for (let i = 0; i < all; i++)
    for (let j = 0; j < all; j++)
      for (const k of finite) moves[i * all + j]! += derivatives[i * all + k]! * inverse[k * all + j]!;
  const result = new Float64Array(layout.n * all);
  for (let row = 0; row < layout.n; row++)
    for (let i = 0; i < all; i++)
      for (const j of finite) result[row * all + i]! += moves[i * all + j]! * scores[row * all + j]!;
  return result;
}

/** Covariances of intercept, coefficients, log scale and shape: from the information, and by clusters where there are any. */
export function covariancesOf(
  layout: AcceleratedLayout,
  fit: Fitted & { readonly clusters: ArrayLike<number> | undefined },
): { readonly model: Float64Array; readonly robust: Float64Array | null; readonly groups: number } {
  const { finite, derivatives, clusters } = fit;
  const inverse = inverseOf(layout, fit);
  const model = carried(inverse, derivatives);
  if (clusters === undefined) return { model, robust: null, groups: layout.n };
  const all = Math.sqrt(inverse.length);
  const scores = scoresOf(layout, fit);
  const cluster = clusterIndex({ times: layout.logLeft, clusters });
  const sums = new Float64Array(cluster.count * all);
  for (let row = 0; row < layout.n; row++)
    for (const j of finite) sums[cluster.of[row]! * all + j]! += scores[row * all + j]!;
  return {
    model,
    robust: carried(withoutRounding(sandwichOf(inverse, sums, cluster.count), inverse), derivatives),
    groups: cluster.count,
  };
}
