/** Sum over rows of weight times each column, four columns at a time so that the weights are read once for all of them. */
export function columnSums(x: readonly Float64Array[], weights: Float64Array, into: Float64Array): void {
  for (let j = 0; j < x.length; j += 4) {
    const [a, b = a, c = a, d = a] = x.slice(j, j + 4) as [Float64Array, ...Float64Array[]];
    let ofA = 0;
    let ofB = 0;
    let ofC = 0;
    let ofD = 0;
    for (let at = 0; at < weights.length; at++) {
      const weight = weights[at]!;
      ofA += weight * a[at]!;
      ofB += weight * b[at]!;
      ofC += weight * c[at]!;
      ofD += weight * d[at]!;
    }
    // there is no place for what lies beyond the last column
    into.set([ofA, ofB, ofC, ofD].slice(0, x.length - j), j);
  }
}
