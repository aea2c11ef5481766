/** Rows taken together: their part of the columns stays in the nearest cache while all pairs of columns go over it. */
const rowsAtOnce = 512;

/** Rows from `from` up to `to` of a product. */
interface Strip {
  readonly into: Float64Array;
  readonly x: readonly Float64Array[];
  readonly weights: Float64Array;
  readonly factor: 1 | -1;
  from: number;
  to: number;
}

/** Columns from j on against columns from k on. */
interface Place {
  readonly j: number;
  readonly k: number;
}

/**
 * Adds factor times X' diag(weights) X to the lower triangle of a square matrix (flat by rows, whole after mirror()).
 *
 * Three columns are taken against three others at a time, so that each value read serves several products; sums stay in registers.
 *
 * @param x columns, each at least as long as the weights
 */
export function addCrossProducts(
  into: Float64Array,
  x: readonly Float64Array[],
  settings: { readonly weights: Float64Array; readonly rows: number; readonly factor: 1 | -1 },
): void {
  const { weights, rows, factor } = settings;
  const strip: Strip = { into, x, weights, factor, from: 0, to: 0 };
  while (strip.to < rows) {
    strip.from = strip.to;
    strip.to = Math.min(rows, strip.from + rowsAtOnce);
    addStrip(strip);
  }
}

function addStrip(strip: Strip): void {
  const size = strip.x.length;
  let j = 0;
  for (; j + 3 <= size; j += 3) {
    for (let k = 0; k < j; k += 3) threeAgainstThree(strip, { j, k });
    threeWithThemselves(strip, j);
  }
  if (j + 2 === size) {
    for (let k = 0; k < j; k += 3) pairAgainstThree(strip, { j, k });
    pairWithItself(strip, j);
  } else if (j + 1 === size) {
    for (let k = 0; k < j; k += 3) oneAgainstThree(strip, { j, k });
    oneWithItself(strip, j);
  }
}

function threeAgainstThree({ into, x, weights, factor, from, to }: Strip, { j, k }: Place): void {
  const [a, b, c] = [x[j], x[j + 1], x[j + 2]] as [Float64Array, Float64Array, Float64Array];
  const [d, e, f] = [x[k], x[k + 1], x[k + 2]] as [Float64Array, Float64Array, Float64Array];
  let ad = 0;
  let ae = 0;
  let af = 0;
  let bd = 0;
  let be = 0;
  let bf = 0;
  let cd = 0;
  let ce = 0;
  let cf = 0;
  for (let i = from; i < to; i++) {
    const weight = weights[i]!;
    const wa = weight * a[i]!;
    const wb = weight * b[i]!;
    const wc = weight * c[i]!;
    const vd = d[i]!;
    const ve = e[i]!;
    const vf = f[i]!;
    ad += wa * vd;
    ae += wa * ve;
    af += wa * vf;
    bd += wb * vd;
    be += wb * ve;
    bf += wb * vf;
    cd += wc * vd;
    ce += wc * ve;
    cf += wc * vf;
  }
  const first = j * x.length + k;
  const second = first + x.length;
  const third = second + x.length;
  into[first]! += factor * ad;
  into[first + 1]! += factor * ae;
  into[first + 2]! += factor * af;
  into[second]! += factor * bd;
  into[second + 1]! += factor * be;
  into[second + 2]! += factor * bf;
  into[third]! += factor * cd;
  into[third + 1]! += factor * ce;
  into[third + 2]! += factor * cf;
}

function threeWithThemselves({ into, x, weights, factor, from, to }: Strip, j: number): void {
  const [a, b, c] = [x[j], x[j + 1], x[j + 2]] as [Float64Array, Float64Array, Float64Array];
  let aa = 0;
  let ba = 0;
  let bb = 0;
  let ca = 0;
  let cb = 0;
  let cc = 0;
  for (let i = from; i < to; i++) {
    const weight = weights[i]!;
    const va = a[i]!;
    const vb = b[i]!;
    const vc = c[i]!;
    const wb = weight * vb;
    const wc = weight * vc;
    aa += weight * va * va;
    ba += wb * va;
    bb += wb * vb;
    ca += wc * va;
    cb += wc * vb;
    cc += wc * vc;
  }
  const first = j * x.length + j;
  const second = first + x.length;
  const third = second + x.length;
  into[first]! += factor * aa;
  into[second]! += factor * ba;
  into[second + 1]! += factor * bb;
  into[third]! += factor * ca;
  into[third + 1]! += factor * cb;
  into[third + 2]! += factor * cc;
}

function pairAgainstThree({ into, x, weights, factor, from, to }: Strip, { j, k }: Place): void {
  const [a, b] = [x[j], x[j + 1]] as [Float64Array, Float64Array];
  const [c, d, e] = [x[k], x[k + 1], x[k + 2]] as [Float64Array, Float64Array, Float64Array];
  let ac = 0;
  let ad = 0;
  let ae = 0;
  let bc = 0;
  let bd = 0;
  let be = 0;
  for (let i = from; i < to; i++) {
    const weight = weights[i]!;
    const wa = weight * a[i]!;
    const wb = weight * b[i]!;
    const vc = c[i]!;
    const vd = d[i]!;
    const ve = e[i]!;
    ac += wa * vc;
    ad += wa * vd;
    ae += wa * ve;
    bc += wb * vc;
    bd += wb * vd;
    be += wb * ve;
  }
  const first = j * x.length + k;
  const second = first + x.length;
  into[first]! += factor * ac;
  into[first + 1]! += factor * ad;
  into[first + 2]! += factor * ae;
  into[second]! += factor * bc;
  into[second + 1]! += factor * bd;
  into[second + 2]! += factor * be;
}

function pairWithItself({ into, x, weights, factor, from, to }: Strip, j: number): void {
  const [a, b] = [x[j], x[j + 1]] as [Float64Array, Float64Array];
  let aa = 0;
  let ba = 0;
  let bb = 0;
  for (let i = from; i < to; i++) {
    const weight = weights[i]!;
    const va = a[i]!;
    const vb = b[i]!;
    const wb = weight * vb;
    aa += weight * va * va;
    ba += wb * va;
    bb += wb * vb;
  }
  const first = j * x.length + j;
  const second = first + x.length;
  into[first]! += factor * aa;
  into[second]! += factor * ba;
  into[second + 1]! += factor * bb;
}

function oneAgainstThree({ into, x, weights, factor, from, to }: Strip, { j, k }: Place): void {
  const a = x[j]!;
  const [c, d, e] = [x[k], x[k + 1], x[k + 2]] as [Float64Array, Float64Array, Float64Array];
  let ac = 0;
  let ad = 0;
  let ae = 0;
  for (let i = from; i < to; i++) {
    const wa = weights[i]! * a[i]!;
    ac += wa * c[i]!;
    ad += wa * d[i]!;
    ae += wa * e[i]!;
  }
  const first = j * x.length + k;
  into[first]! += factor * ac;
  into[first + 1]! += factor * ad;
  into[first + 2]! += factor * ae;
}

function oneWithItself({ into, x, weights, factor, from, to }: Strip, j: number): void {
  const a = x[j]!;
  let aa = 0;
  for (let i = from; i < to; i++) {
    const va = a[i]!;
    aa += weights[i]! * va * va;
  }
  into[j * x.length + j]! += factor * aa;
}

/** Copies the lower triangle into the upper one. */
export function mirror(matrix: Float64Array, size: number): void {
  for (let j = 0; j < size; j++) for (let k = 0; k < j; k++) matrix[k * size + j] = matrix[j * size + k]!;
}
