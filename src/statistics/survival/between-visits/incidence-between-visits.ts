import { checkColumn } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  list,
  needed,
  number,
  type OptionsOf,
  readOptions,
  withDefault,
} from "../../shared/options.js";
import { chosenAmong } from "../accelerated/accelerated-comparison.js";
import type { TimeLaw } from "../accelerated/error-laws.js";
import { type VisitColumns, type Visits, visitColumnsNames, visitsOf } from "./columns.js";
import { parametersOf, tailOf } from "./curves-of-ends.js";
import { type EndModel, mainEndModel, otherEndModel, type Piece } from "./end-model.js";
import { meanUnder, middles, type MeanWithin, rowsOfEnd } from "./rows-of-end.js";
import { type GroupOutputs, groupOutputs, knotsFor, type Outputs, type Pattern } from "./standardised-outputs.js";

const incidenceOptions = {
  /** Times at which shares are wanted, above 0. */
  times: needed(list<ArrayLike<number>>()),
  /** Up to where mean times are taken, and beyond which no median is given. Default: the last time in the data. */
  horizon: number("positive"),
  /** The end asked about. Default 1. */
  end: number("positive count", 1),
  /** Laws among which the end's own is chosen. Default log-normal, log-logistic, Weibull, generalised gamma. */
  laws: withDefault(list<readonly TimeLaw[]>("an array of laws"), chosenAmong),
  /** Default 0.95. */
  level: confidenceLevel,
};

export interface IncidenceBetweenVisitsOptions extends OptionsOf<typeof incidenceOptions> {}

/** A figure with its interval; null with a reason. */
export interface VisitFigure {
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

export interface VisitShare extends VisitFigure {
  readonly time: number;
}

export interface GroupBetweenVisits {
  readonly group: number;
  /** Rows, and summed weights of those with the end asked about. */
  readonly n: number;
  readonly events: number;
  /** Share with the end by each time, other ends counted as not having it. */
  readonly shares: readonly VisitShare[];
  /** The time by which half of all have had it. */
  readonly median: VisitFigure;
  /** Mean time without it up to the horizon. */
  readonly restrictedMean: VisitFigure;
}

/** A group less another. */
export interface DifferenceBetweenVisits {
  readonly group: number;
  readonly against: number;
  readonly shares: readonly VisitShare[];
  readonly median: VisitFigure;
  readonly restrictedMean: VisitFigure;
}

export interface IncidenceBetweenVisits {
  readonly end: number;
  readonly horizon: number | null;
  /** In order of the ends' codes. */
  readonly models: readonly EndModel[];
  readonly groups: readonly GroupBetweenVisits[];
  /** Each group less each one before it. */
  readonly differences: readonly DifferenceBetweenVisits[];
  readonly level: number;
  readonly reason: Reason | null;
}

function patternsOf(visits: Visits): { patterns: Pattern[]; of: Int32Array } {
  const places = new Map<string, number>();
  const values: number[][] = [];
  const weights: number[] = [];
  const of = new Int32Array(visits.n);
  for (let row = 0; row < visits.n; row++) {
    const own = visits.covariates.columns.map((column) => column[row]!);
    const key = own.join(" ");
    const place = places.get(key) ?? values.push(own) - 1;
    places.set(key, place);
    of[row] = place;
    weights[place] = (weights[place] ?? 0) + visits.weights[row]!;
  }
  return { patterns: values.map((own, p) => ({ values: own, share: weights[p]! / visits.total })), of };
}

/** Means within the intervals under the models of the ends. */
function meansUnder(visits: Visits, models: readonly EndModel[]): MeanWithin {
  const middle = middles(visits);
  return (row) => {
    const piece = models
      .find(({ end }) => end === visits.ends[row])
      ?.pieces.find(({ groups }) => groups.includes(visits.group[row]!));
    if (piece === undefined) return middle(row);
    const tail = tailOf(piece, {
      parameters: parametersOf(piece),
      group: visits.group[row]!,
      covariates: visits.covariates.columns.map((column) => column[row]!),
    });
    return meanUnder(tail, { left: Math.max(0, visits.left[row]!), right: visits.right[row]! });
  };
}

/** Good enough for a mean within an interval. */
const firstLaws: readonly TimeLaw[] = ["log-normal", "weibull"];

/** Models of all ends: first with other ends at the middle of their intervals, then at their means under the first models. */
function modelsOf(visits: Visits, options: { end: number; laws: readonly TimeLaw[]; level: number }): EndModel[] {
  const codes = [...new Set([options.end, ...visits.endCodes])].sort((a, b) => a - b);
  const fit = (meanWithin: MeanWithin, laws: readonly TimeLaw[]): EndModel[] =>
    codes.map((end) => {
      const asked = { ...options, laws, end, ...rowsOfEnd(visits, { end, meanWithin }) };
      return end === options.end ? mainEndModel(visits, asked) : otherEndModel(visits, asked);
    });
  if (codes.length === 1) return fit(middles(visits), options.laws);
  return fit(meansUnder(visits, fit(middles(visits), firstLaws)), options.laws);
}

/** Variance of the outputs of a group, or of the difference of two. */
function variancesOf(
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
    Float64Array.from({ length: size }, (__, o) => parts.reduce((sum, { sign, of }) => sum + sign * of.byPattern[p]![o]!, 0)),
  );
  const ofRow = (row: number, o: number): number => (visits.weights[row]! / visits.total) * mix[patternOf[row]!]![o]!;
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
  for (let c = 0; c < cluster.count; c++) for (let o = 0; o < size; o++) variance[o]! += sums[c * size + o]! ** 2;
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
    gradients.forEach((a, i) =>
      gradients.forEach((b, j) => {
        const covariance = fit.covariance[i]![j] ?? 0;
        for (let o = 0; o < size; o++) variance[o]! += a[o]! * covariance * b[o]!;
      }),
    );
  for (let row = 0; row < n; row++) for (let o = 0; o < size; o++) variance[o]! += ofRow(row, o) ** 2;
  return variance;
}

/** The last time by which an end was seen, and the last at which somebody was seen without. */
function lastSeen({ left, right, group }: Visits, place: number | null): [number, number] {
  let [ended, still] = [0, 0];
  for (let row = 0; row < left.length; row++) {
    if (place !== null && group[row] !== place) continue;
    if (Number.isFinite(right[row])) ended = Math.max(ended, right[row]!);
    else still = Math.max(still, left[row]!);
  }
  return [ended, still];
}

const missing = (reason: Reason): VisitFigure => ({
  estimate: null,
  standardError: null,
  lower: null,
  upper: null,
  reason,
});

/** Limits on the scale on which the figure is nearer to normal. */
type Scale = "logit" | "log" | "plain";

function figure(estimate: number, of: { readonly variance: number; readonly critical: number; readonly scale: Scale }): VisitFigure {
  const { variance, critical, scale } = of;
  const standardError = Math.sqrt(Math.max(0, variance));
  const half = critical * standardError;
  if (scale === "plain" || !(estimate > 0) || (scale === "logit" && !(estimate < 1)))
    return { estimate, standardError, lower: estimate - half, upper: estimate + half, reason: null };
  if (scale === "log") {
    const factor = Math.exp(half / estimate);
    return { estimate, standardError, lower: estimate / factor, upper: estimate * factor, reason: null };
  }
  const odds = estimate / (1 - estimate);
  const factor = Math.exp(half / (estimate * (1 - estimate)));
  const back = (value: number): number => value / (1 + value);
  return { estimate, standardError, lower: back(odds / factor), upper: back(odds * factor), reason: null };
}

export function incidenceBetweenVisits(
  columns: VisitColumns,
  options: IncidenceBetweenVisitsOptions,
): IncidenceBetweenVisits {
  checkColumnNames(visitColumnsNames, { columns });
  const { end, laws, level, ...asked } = readOptions(incidenceOptions, options);
  checkColumn({ name: "times", values: asked.times }, "positive");
  const visits = visitsOf(columns);
  const times = Array.from(asked.times);
  const horizon = asked.horizon ?? Math.max(...lastSeen(visits, null));
  const nothing = (reason: Reason, models: readonly EndModel[]): IncidenceBetweenVisits => ({ end, horizon: horizon > 0 ? horizon : null, models, groups: [], differences: [], level, reason });
  if (!(visits.total > 0)) return nothing("no-rows", []);
  const models = modelsOf(visits, { end, laws, level });
  const own = models.findIndex((model) => model.end === end);
  const failed = models.find(({ reason }) => reason !== null);
  if (failed) return nothing(failed.reason!, models);
  const { patterns, of: patternOf } = patternsOf(visits);
  const knots = knotsFor(times, horizon);
  const critical = normalCritical(level);
  const computed = visits.groups.map((_, group) => groupOutputs(patterns, { models, own, group, knots }));
  const last = visits.groups.map((_, place) => {
    const [ended, still] = lastSeen(visits, place);
    // when everybody still followed had an end, nothing is open afterwards
    return ended > still ? Number.POSITIVE_INFINITY : still;
  });
  const from = { visits, patternOf };
  const say = (outputs: Outputs, of: { variance: Outputs; reach: number; shares: Scale; mean: Scale; median: Scale }) => {
    const { variance, reach } = of;
    const one = (o: number, scale: Scale): VisitFigure => figure(outputs[o]!, { variance: variance[o]!, critical, scale });
    const beyond = missing("beyond-follow-up");
    const median = outputs[times.length + 1]!;
    return {
      shares: times.map((time, o) => ({ time, ...(time > reach ? beyond : one(o, of.shares)) })),
      restrictedMean: horizon > reach ? beyond : one(times.length, of.mean),
      median: Number.isNaN(median) || median > reach ? missing("not-reached") : one(times.length + 1, of.median),
    };
  };
  return {
    end,
    horizon,
    models,
    groups: visits.groups.map((group, place) => ({
      group,
      n: visits.group.reduce((count, other) => count + Number(other === place), 0),
      events: visits.weights.reduce((sum, weight, row) => (visits.group[row] === place && visits.ends[row] === end ? sum + weight : sum), 0),
      ...say(computed[place]!.outputs, {
        variance: variancesOf([{ sign: 1, of: computed[place]! }], from),
        reach: last[place]!,
        shares: "logit",
        mean: "log",
        median: "log",
      }),
    })),
    differences: visits.groups.flatMap((group, place) =>
      visits.groups.slice(0, place).map((against, other) => ({
        group,
        against,
        ...say(computed[place]!.outputs.map((value, o) => value - computed[other]!.outputs[o]!), {
          variance: variancesOf([{ sign: 1, of: computed[place]! }, { sign: -1, of: computed[other]! }], from),
          reach: Math.min(last[place]!, last[other]!),
          shares: "plain",
          mean: "plain",
          median: "plain",
        }),
      })),
    ),
    level,
    reason: null,
  };
}
