/** Far below what any sandwich may be of the model's own variance: a standard error of one part in ten thousand million. */
const roundingBelow = 1e-20;

/**
 * A sandwich without what is only rounding: where the scores cancel within their clusters, as they do within a single cluster, the sums are
 * not exactly 0. Such a variance is 0, and with it its covariances.
 *
 * @param robust and model: covariances of the same coefficients, flat by rows
 */
export function withoutRounding(robust: Float64Array, model: Float64Array): Float64Array {
  const size = Math.sqrt(robust.length);
  const cleaned = robust.slice();
  for (let j = 0; j < size; j++) {
    if (robust[j * size + j]! > roundingBelow * model[j * size + j]!) continue;
    for (let k = 0; k < size; k++) cleaned[j * size + k] = cleaned[k * size + j] = 0;
  }
  return cleaned;
}
