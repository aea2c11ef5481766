import {
  type AcceleratedLayout,
  between,
  exact,
  leftCensored,
  rightCensored,
} from "./accelerated-columns.js";
import type { ErrorLaw } from "./error-law.js";

/**
 * Log-likelihood of log t (less the layout's jacobian: of t), its first derivatives and its information, by g = b / scale and w = 1 / scale:
 * z = w log t - x'g is linear in them and the log-likelihood concave, but for what late entries take off.
 */
export interface AcceleratedLikelihood {
  readonly logLikelihood: number;
  /** Covariates' first, 1 / scale last. */
  readonly score: Float64Array;
  /** Minus the second derivatives, flat by rows. */
  readonly information: Float64Array;
  /** The same without what late entries take off: positive definite wherever something is known. */
  readonly concavePart: () => Float64Array;
}

/** A row's log-likelihood and its derivatives by u = -x'g and by w: first, then second. */
interface RowTerms {
  value: number;
  byU: number;
  byW: number;
  uu: number;
  uw: number;
  ww: number;
}

/** One end of a row's interval: z there, log density over the row's probability, and log t. */
interface End {
  readonly z: number;
  readonly logTime: number;
}

/** d log P where P = S(z left) - S(z right): each end adds its density over P, with the sign of that end. */
function addEnd(
  terms: RowTerms,
  end: End,
  from: { law: ErrorLaw; logProbability: number; sign: -1 | 1 },
): void {
  const { law, logProbability, sign } = from;
  const density = sign * Math.exp(law.logDensity(end.z) - logProbability);
  if (density === 0) return;
  const change = density * law.slope(end.z);
  terms.byU += density;
  terms.byW += density * end.logTime;
  terms.uu += change;
  terms.uw += change * end.logTime;
  terms.ww += change * end.logTime * end.logTime;
}

function exactTerms(terms: RowTerms, end: End, law: ErrorLaw, w: number): void {
  const slope = law.slope(end.z);
  const curvature = law.curvature(end.z);
  terms.value = law.logDensity(end.z) + Math.log(w);
  terms.byU = slope;
  terms.byW = slope * end.logTime + 1 / w;
  terms.uu = curvature;
  terms.uw = curvature * end.logTime;
  terms.ww = curvature * end.logTime * end.logTime - 1 / (w * w);
}

/** log(S(a) - S(b)) from the logarithms of the two, the first the larger. */
const logDifference = (a: number, b: number): number => a + Math.log(-Math.expm1(b - a));

/** A width in z, times the steepness of the log density, below which an interval's probability is its density times its width to 1e-11. */
const narrow = 1e-5;

/**
 * Where the ends are so close that their difference would lose its digits, the interval is a time at its middle, and `terms` are written.
 *
 * @returns whether that was so
 */
function narrowTerms(
  terms: RowTerms,
  row: { left: End; right: End },
  model: { law: ErrorLaw; w: number },
): boolean {
  const { left, right } = row;
  const width = right.z - left.z;
  if (width >= narrow) return false;
  const middle = { z: (left.z + right.z) / 2, logTime: (left.logTime + right.logTime) / 2 };
  if (width * (1 + Math.abs(model.law.slope(middle.z))) >= narrow) return false;
  exactTerms(terms, middle, model.law, model.w);
  terms.value += Math.log(right.logTime - left.logTime);
  return true;
}

/** Writes the terms of one row. */
function rowTerms(
  terms: RowTerms,
  row: { kind: number; left: End; right: End },
  model: { law: ErrorLaw; w: number },
): void {
  const { kind, left, right } = row;
  const { law, w } = model;
  terms.value = terms.byU = terms.byW = terms.uu = terms.uw = terms.ww = 0;
  if (kind === exact) {
    exactTerms(terms, left, law, w);
    return;
  }
  if (kind === between && narrowTerms(terms, row, model)) return;
  if (kind === rightCensored) terms.value = law.logUpperTail(left.z);
  if (kind === leftCensored) terms.value = logDifference(0, law.logUpperTail(right.z));
  if (kind === between) terms.value = logDifference(law.logUpperTail(left.z), law.logUpperTail(right.z));
  const logProbability = terms.value;
  if (kind === rightCensored || kind === between) addEnd(terms, left, { law, logProbability, sign: -1 });
  if (kind === leftCensored || kind === between) addEnd(terms, right, { law, logProbability, sign: 1 });
  terms.uu -= terms.byU * terms.byU;
  terms.uw -= terms.byU * terms.byW;
  terms.ww -= terms.byW * terms.byW;
}

/** What a late entry adds: -log S(entry), the probability that the row is there at all. */
function entryTerms(terms: RowTerms, end: End, law: ErrorLaw): void {
  const tail = law.logUpperTail(end.z);
  const hazard = Math.exp(law.logDensity(end.z) - tail);
  const rise = hazard * (law.slope(end.z) + hazard);
  terms.value -= tail;
  terms.byU += hazard;
  terms.byW += hazard * end.logTime;
  terms.uu += rise;
  terms.uw += rise * end.logTime;
  terms.ww += rise * end.logTime * end.logTime;
}

/** Visits each row with its terms; the object passed is the same each time. */
function eachRow(
  layout: AcceleratedLayout,
  at: At & { readonly asIfFromStart?: boolean },
  visit: (terms: RowTerms, row: number) => void,
): void {
  const { n, size, x, kind, logLeft, logRight, logEntry } = layout;
  const { parameters, law, asIfFromStart = false } = at;
  const w = parameters[size]!;
  const terms: RowTerms = { value: 0, byU: 0, byW: 0, uu: 0, uw: 0, ww: 0 };
  const left = { z: 0, logTime: 0 };
  const right = { z: 0, logTime: 0 };
  const line = { kind: 0, left, right };
  const model = { law, w };
  for (let row = 0; row < n; row++) {
    let u = 0;
    for (let j = 0; j < size; j++) u -= x[row * size + j]! * parameters[j]!;
    line.kind = kind[row]!;
    left.logTime = logLeft[row]!;
    left.z = w * left.logTime + u;
    right.logTime = logRight[row]!;
    right.z = w * right.logTime + u;
    rowTerms(terms, line, model);
    const entered = asIfFromStart ? null : (logEntry?.[row] ?? null);
    if (entered !== null) entryTerms(terms, { logTime: entered, z: w * entered + u }, law);
    visit(terms, row);
  }
}

interface At {
  readonly parameters: Float64Array;
  readonly law: ErrorLaw;
}

export function likelihoodAt(layout: AcceleratedLayout, at: At): AcceleratedLikelihood {
  const all = sumsOver(layout, at);
  if (layout.logEntry === null) return { ...all, concavePart: () => all.information };
  return { ...all, concavePart: () => sumsOver(layout, { ...at, asIfFromStart: true }).information };
}

function sumsOver(
  layout: AcceleratedLayout,
  at: At & { readonly asIfFromStart?: boolean },
): Omit<AcceleratedLikelihood, "concavePart"> {
  const { size, x, weights } = layout;
  const all = size + 1;
  const score = new Float64Array(all);
  const information = new Float64Array(all * all);
  let logLikelihood = 0;
  eachRow(layout, at, (terms, row) => {
    const weight = weights[row]!;
    if (weight === 0) return;
    const start = row * size;
    logLikelihood += weight * terms.value;
    score[size]! += weight * terms.byW;
    information[size * all + size]! -= weight * terms.ww;
    for (let j = 0; j < size; j++) {
      const own = weight * x[start + j]!;
      if (own === 0) continue;
      score[j]! -= own * terms.byU;
      information[j * all + size]! += own * terms.uw;
      const curved = own * terms.uu;
      for (let k = 0; k <= j; k++) information[j * all + k]! -= curved * x[start + k]!;
    }
  });
  for (let j = 0; j < size; j++) {
    information[size * all + j] = information[j * all + size]!;
    for (let k = 0; k < j; k++) information[k * all + j] = information[j * all + k]!;
  }
  return { logLikelihood, score, information };
}

/** Log-likelihood of each row, times its weight. */
export function logLikelihoodByRow(layout: AcceleratedLayout, at: At): Float64Array {
  const values = new Float64Array(layout.n);
  eachRow(layout, at, (terms, row) => {
    const weight = layout.weights[row]!;
    values[row] = weight === 0 ? 0 : weight * terms.value;
  });
  return values;
}

/** First derivatives of each row, times its weight; flat by rows. */
export function scoresByRow(layout: AcceleratedLayout, at: At): Float64Array {
  const { n, size, x, weights } = layout;
  const all = size + 1;
  const scores = new Float64Array(n * all);
  eachRow(layout, at, (terms, row) => {
    const weight = weights[row]!;
    if (weight === 0) return;
    for (let j = 0; j < size; j++) scores[row * all + j] = -weight * x[row * size + j]! * terms.byU;
    scores[row * all + size] = weight * terms.byW;
  });
  return scores;
}
