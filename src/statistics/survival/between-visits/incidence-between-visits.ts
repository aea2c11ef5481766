import { checkColumn } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
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
import { type EndModel, mainEndModel, otherEndModel } from "./end-model.js";
import type { IncidenceBetweenVisits, ModelOfEnd } from "./incidence-types.js";
import { type MeanWithin, meanUnder, middles, rowsOfEnd } from "./rows-of-end.js";
import { groupOutputs, knotsFor, type Pattern } from "./standardised-outputs.js";
import {
  boundedFigure,
  missing,
  type RecoverableFigure,
  recoveredDifference,
  type Spread,
  type VisitFigure,
} from "./visit-figures.js";
import { variancesOf } from "./visit-variances.js";

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
function modelsOf(
  visits: Visits,
  options: { end: number; laws: readonly TimeLaw[]; level: number },
): EndModel[] {
  const codes = [...new Set([options.end, ...visits.endCodes])].sort((a, b) => a - b);
  const modelled = (meanWithin: MeanWithin, laws: readonly TimeLaw[]): EndModel[] =>
    codes.map((end) => {
      const asked = { ...options, laws, end, ...rowsOfEnd(visits, { end, meanWithin }) };
      return end === options.end ? mainEndModel(visits, asked) : otherEndModel(visits, asked);
    });
  if (codes.length === 1) return modelled(middles(visits), options.laws);
  return modelled(meansUnder(visits, modelled(middles(visits), firstLaws)), options.laws);
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

/**
 * Share of people with one end by given times, its median and mean time without it, from ends known only between visits (or to the day, or not
 * at all), other ends counted as not having it: for each group with everybody's covariates, and the differences between groups.
 *
 * Each end has an accelerated model of the time to it as if no other came (cause-specific hazards); F(t) = integral of f(u) x product of the other
 * ends' shares without end. Rows with another end stop counting when that came, at the mean of its interval where it is known only between
 * visits. Of the end asked about the law is chosen by AIC, and whether groups share it and its spread or have each a model of their own (where
 * that is better by more than 2 in AIC and each group has ten such ends); the other ends have an exponential, Weibull or log-normal law,
 * with groups and covariates where five such ends a coefficient were seen, else each group by itself without covariates. An end never seen in
 * a group does not come there. Late entry is carried through in every likelihood: figures then speak of those still without an end
 * at entry, as if all had been followed from time 0.
 *
 * Everybody's covariates are set under each group in turn and the shares averaged (g-formula). Variance by the delta method from the models'
 * covariance, or their scores summed within clusters, and from the spread of the averaged shares; times units / (units - parameters), with
 * Student's t. Limits on the logit (shares; mean as a part of the horizon) or logarithm (median); those of differences recovered from them, and their p from
 * the level at which a limit comes to 0.
 *
 * Measured on simulated visits at weeks 6, 12, 24 and 39 (README.md): where it does not hold and what was tried besides.
 *
 * @param columns see VisitColumns
 * @returns no groups with the reason of the end whose model has no estimates; `beyond-follow-up` for times after the last day on which
 *   somebody in the group was still followed without an end (or with, where all had one); `not-reached` for a median after that or after the horizon
 * @throws ArgumentError naming the column and index at fault, or the option
 * @source models: Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, chapters 3 and 8; standardised: Robins 1986, Math
 *   Model 7:1393; law: Akaike 1974, IEEE Trans Automat Contr 19:716; recovered limits: Zou & Donner 2008, Stat Med 27:1693
 * @example
 * incidenceBetweenVisits({ left: [0, 42, 42, 84], right: [42, 84, 84, null] }, { times: [60] }).groups[0].n // => 4
 */
export function incidenceBetweenVisits(
  columns: VisitColumns,
  options: IncidenceBetweenVisitsOptions,
): IncidenceBetweenVisits {
  checkColumnNames(visitColumnsNames, { columns });
  const { end, laws, level, ...asked } = readOptions(incidenceOptions, options);
  checkColumn({ name: "times", values: asked.times }, "positive");
  const visits = visitsOf(columns);
  const horizon = asked.horizon ?? Math.max(...lastSeen(visits, null));
  const models = visits.total > 0 && horizon > 0 ? modelsOf(visits, { end, laws, level }) : [];
  const failed = models.find(({ reason }) => reason !== null);
  const reason = visits.total > 0 ? (failed?.reason ?? null) : "no-rows";
  const told = { end, horizon: horizon > 0 ? horizon : null, models: models.map(toldOf), level, reason };
  if (reason !== null || models.length === 0)
    return { ...told, groups: [], differences: [], reason: reason ?? "no-events" };
  return { ...told, ...figuresOf(visits, { models, end, horizon, level, times: Array.from(asked.times) }) };
}

interface Asked {
  readonly models: readonly EndModel[];
  readonly end: number;
  readonly horizon: number;
  readonly level: number;
  readonly times: readonly number[];
}

const toldOf = ({ pieces, ...told }: EndModel): ModelOfEnd => ({
  ...told,
  fits: pieces.map(({ fit }) => fit),
});

/** Figures of the groups and of their differences. */
function figuresOf(visits: Visits, asked: Asked): Pick<IncidenceBetweenVisits, "groups" | "differences"> {
  const { models, end, horizon, level, times } = asked;
  const own = models.findIndex((model) => model.end === end);
  const { patterns, of: patternOf } = patternsOf(visits);
  const knots = knotsFor(times, horizon);
  const computed = visits.groups.map((_, group) => groupOutputs(patterns, { models, own, group, knots }));
  const units = unitsOf(visits);
  const parameters = models[own]!.pieces.reduce((most, { fit }) => Math.max(most, fit.parameters), 0);
  const spreadOf = (variance: number): Spread => ({ variance, units, parameters, level });
  const from = { visits, patternOf };
  const figures = computed.map((of, i) => {
    const variance = variancesOf([{ sign: 1, of }], from);
    const reach = reachOf(visits, i);
    return of.outputs
      .map((_, o) => o)
      .reduce<RecoverableFigure[]>((list, o) => {
        const value = of.outputs[o]!;
        const time = times[o] ?? (o === times.length ? horizon : value);
        const top = o < times.length ? 1 : o === times.length ? horizon : Number.POSITIVE_INFINITY;
        if (o > times.length && !(value <= Math.min(reach, horizon))) list.push(without("not-reached"));
        else if (time > reach) list.push(without("beyond-follow-up"));
        else list.push(boundedFigure(value, { ...spreadOf(variance[o]!), top }));
        return list;
      }, []);
  });
  const laidOut = <Figure extends VisitFigure>(list: readonly Figure[]) => ({
    shares: times.map((time, o) => ({ time, ...list[o]! })),
    restrictedMean: list[times.length]!,
    median: list[times.length + 1]!,
  });
  return {
    groups: visits.groups.map((group, i) => ({
      group,
      ...countsOf(visits, { place: i, end }),
      ...laidOut(figures[i]!.map(({ figure }) => figure)),
    })),
    differences: visits.groups.flatMap((group, i) =>
      visits.groups.slice(0, i).map((against, other) => {
        const variance = variancesOf(
          [
            { sign: 1, of: computed[i]! },
            { sign: -1, of: computed[other]! },
          ],
          from,
        );
        const list = figures[i]!.map((one, o) =>
          recoveredDifference([one, figures[other]![o]!], spreadOf(variance[o]!)),
        );
        return { group, against, ...laidOut(list) };
      }),
    ),
  };
}

const without = (reason: Reason): RecoverableFigure => ({ figure: missing(reason), limitsAt: null });

/** Rows that count, or the clusters that they make. */
function unitsOf({ left, weights, clusters }: Visits): number {
  if (clusters !== undefined) return clusterIndex({ times: left, clusters }).count;
  return weights.reduce((count, weight) => count + Number(weight > 0), 0);
}

/** Up to when a group's curve rests on somebody seen; for ever where everybody still followed had an end. */
function reachOf(visits: Visits, place: number): number {
  const [ended, still] = lastSeen(visits, place);
  return ended > still ? Number.POSITIVE_INFINITY : still;
}

function countsOf(visits: Visits, of: { place: number; end: number }): { n: number; events: number } {
  let [n, events] = [0, 0];
  for (let row = 0; row < visits.n; row++) {
    if (visits.group[row] !== of.place) continue;
    n++;
    if (visits.ends[row] === of.end) events += visits.weights[row]!;
  }
  return { n, events };
}
