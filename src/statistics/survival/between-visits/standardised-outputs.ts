import { incidenceOver, parametersOf, piecesFor, tailOf } from "./curves-of-ends.js";
import type { EndModel, Piece } from "./end-model.js";
import type { Pattern } from "./patterns.js";

/** Where curves are computed: ascending from 0; every second one is the middle between its neighbours. */
export interface Knots {
  readonly at: Float64Array;
  /** Place of each time asked for, and of the horizon. */
  readonly times: readonly number[];
  readonly horizon: number;
}

const panels = 128;

/** Times asked for and an even grid, each step halved. */
export function knotsFor(times: readonly number[], horizon: number): Knots {
  const last = Math.max(horizon, ...times);
  const ends = new Set([
    0,
    ...times,
    horizon,
    ...Array.from({ length: panels }, (_, i) => ((i + 1) * last) / panels),
  ]);
  const sorted = [...ends].sort((a, b) => a - b);
  const at = Float64Array.from({ length: 2 * sorted.length - 1 }, (_, i) =>
    i % 2 === 0 ? sorted[i / 2]! : (sorted[(i - 1) / 2]! + sorted[(i + 1) / 2]!) / 2,
  );
  const place = (time: number): number => at.indexOf(time);
  return { at, times: times.map(place), horizon: place(horizon) };
}

/** Shares at the times asked for, then mean time not yet at the end up to the horizon, then the median (NaN: not reached). */
export type Outputs = Float64Array;

/** Mean of horizon less the area under the incidence (Simpson's rule over each pair of steps). */
function meanNotYet(incidence: Float64Array, { at, horizon }: Knots): number {
  let area = 0;
  for (let i = 0; i < horizon; i += 2)
    area += ((at[i + 2]! - at[i]!) / 6) * (incidence[i]! + 4 * incidence[i + 1]! + incidence[i + 2]!);
  return at[horizon]! - area;
}

/** Where the incidence comes up to a half: by the parabola through the step's three points. */
function medianOf(incidence: Float64Array, { at }: Knots): number {
  let i = 0;
  while (i + 2 < at.length && incidence[i + 2]! < 0.5) i += 2;
  if (incidence[i + 2] === undefined || incidence[i + 2]! < 0.5) return Number.NaN;
  const [a, b, c] = [incidence[i]! - 0.5, incidence[i + 1]! - 0.5, incidence[i + 2]! - 0.5];
  const square = 2 * (a - 2 * b + c);
  const linear = 4 * b - 3 * a - c;
  const root = Math.sqrt(linear * linear - 4 * square * a);
  const part = (-2 * a) / (linear + root);
  return at[i]! + part * (at[i + 2]! - at[i]!);
}

function outputsOf(incidence: Float64Array, knots: Knots): Outputs {
  return Float64Array.from([
    ...knots.times.map((place) => incidence[place]!),
    meanNotYet(incidence, knots),
    medianOf(incidence, knots),
  ]);
}

interface Question {
  readonly models: readonly EndModel[];
  /** Place of the end asked about among the models. */
  readonly own: number;
  readonly group: number;
  readonly knots: Knots;
}

/** A piece with parameters that are not its estimates. */
export interface Moved {
  readonly piece: Piece;
  readonly parameters: Float64Array;
}

/** Incidence in one group at the knots for one pattern. */
export function incidenceOf(
  pattern: Pick<Pattern, "values">,
  question: Omit<Question, "knots"> & { readonly knots: Pick<Knots, "at"> },
  moved?: Moved,
): Float64Array {
  const { models, own, group, knots } = question;
  const tails = piecesFor(models, group).map((piece) => {
    if (piece === undefined) return null;
    const parameters = moved?.piece === piece ? moved.parameters : parametersOf(piece);
    return tailOf(piece, { parameters, group, covariates: pattern.values });
  });
  const ownTail = tails[own];
  if (!ownTail) return new Float64Array(knots.at.length);
  const others = tails.filter((tail, i) => tail !== null && i !== own) as ((time: number) => number)[];
  return incidenceOver(knots.at, { own: ownTail, others });
}

function meanOver(patterns: readonly Pattern[], curves: readonly Float64Array[]): Float64Array {
  const mean = new Float64Array(curves[0]!.length);
  curves.forEach((curve, p) => {
    for (let i = 0; i < mean.length; i++) mean[i]! += patterns[p]!.share * curve[i]!;
  });
  return mean;
}

/** One group's figures with all that their variance needs. */
export interface GroupOutputs {
  readonly outputs: Outputs;
  /** Derivatives of the outputs by the parameters of each piece: one array a parameter. */
  readonly gradients: ReadonlyMap<Piece, readonly Outputs[]>;
  /** What a pattern adds to the outputs above their mean. */
  readonly byPattern: readonly Outputs[];
}

/** Part of a parameter's standard error over which a derivative is taken. */
const partOfError = 1e-3;

/** Derivatives of outputs by each parameter of a piece, one array a parameter; 0 for one that is held fast. */
export function gradientsBy(
  piece: Piece,
  { size, outputsAt }: { readonly size: number; readonly outputsAt: (moved: Moved) => Outputs },
): Outputs[] {
  const estimates = parametersOf(piece);
  const covariance = piece.fit.robustCovariance ?? piece.fit.covariance;
  return covariance.map((row, j): Outputs => {
    const variance = row[j] ?? 0;
    if (variance === null || !(variance > 0)) return new Float64Array(size);
    const step = partOfError * Math.sqrt(variance);
    const there = (by: number): Outputs => {
      const parameters = estimates.slice();
      parameters[j]! += by;
      return outputsAt({ piece, parameters });
    };
    const [up, down] = [there(step), there(-step)];
    return up.map((value, o) => (value - down[o]!) / (2 * step));
  });
}

/** Everybody's covariates under one group: mean over the patterns (g-formula), with derivatives. */
export function groupOutputs(patterns: readonly Pattern[], question: Question): GroupOutputs {
  const { models, group, knots } = question;
  const curves = patterns.map((pattern) => incidenceOf(pattern, question));
  const mean = meanOver(patterns, curves);
  const outputs = outputsOf(mean, knots);
  const gradients = new Map<Piece, readonly Outputs[]>();
  for (const piece of piecesFor(models, group)) {
    if (piece === undefined) continue;
    const outputsAt = (moved: Moved): Outputs =>
      outputsOf(
        meanOver(
          patterns,
          patterns.map((pattern) => incidenceOf(pattern, question, moved)),
        ),
        knots,
      );
    gradients.set(piece, gradientsBy(piece, { size: outputs.length, outputsAt }));
  }
  return { outputs, gradients, byPattern: patternParts(patterns, { curves, mean, knots }) };
}

/** Outputs of each pattern less the mean; for the median what the pattern moves it by. */
function patternParts(
  patterns: readonly Pattern[],
  of: { curves: readonly Float64Array[]; mean: Float64Array; knots: Knots },
): Outputs[] {
  const { curves, mean, knots } = of;
  const centre = outputsOf(mean, knots);
  const median = centre[centre.length - 1]!;
  const after = Number.isNaN(median) ? -1 : knots.at.findIndex((time) => time >= median);
  const rise = after > 0 ? (mean[after]! - mean[after - 1]!) / (knots.at[after]! - knots.at[after - 1]!) : 0;
  return patterns.map((_, p) => {
    const curve = curves[p]!;
    const own = outputsOf(curve, knots).map((value, o) => value - centre[o]!);
    const part = after > 0 ? (median - knots.at[after - 1]!) / (knots.at[after]! - knots.at[after - 1]!) : 0;
    const at = after > 0 ? curve[after - 1]! + part * (curve[after]! - curve[after - 1]!) : 0;
    own[own.length - 1] = rise > 0 ? -(at - 0.5) / rise : Number.NaN;
    return own;
  });
}
