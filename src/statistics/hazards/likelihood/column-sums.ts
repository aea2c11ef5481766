/** Sum over rows of weight times each column, four columns at a time so that the weights are read once for all of them. */
export function columnSums(x: readonly Float64Array[], weights: Float64Array, into: Float64Array): void {
  for (let j = 0; j < x.length; j += 4) {
    const [a, b = a, c = a, d = a] = x.slice(j, j + 4) as [Float64Array, ...Float64Array[]];
    let ofA = 0;
    let ofB = 0;
    let ofC = 0;
    let ofD = 0;
    for (let i = 0; i < weights.length; i++) {
      const weight = weights[i]!;
      ofA += weight * a[i]!;
      ofB += weight * b[i]!;
      ofC += weight * c[i]!;
      ofD += weight * d[i]!;
    }
    // there is no place for what lies beyond the last column
    into.set([ofA, ofB, ofC, ofD].slice(0, x.length - j), j);
  }
}
