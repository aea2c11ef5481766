import { clusterIndex } from "../../shared/clusters.js";
import type { Reason } from "../../shared/figure.js";
import { confidenceLevel, list, number, withDefault } from "../../shared/options.js";
import { chosenAmong } from "../accelerated/accelerated-comparison.js";
import type { TimeLaw } from "../accelerated/error-laws.js";
import { type VisitColumns, type Visits, visitsOf } from "./columns.js";
import { parametersOf, tailOf } from "./curves-of-ends.js";
import { type EndModel, mainEndModel, otherEndModel } from "./end-model.js";
import { type MeanWithin, meanUnder, middles, rowsOfEnd } from "./rows-of-end.js";
import type { Spread } from "./visit-figures.js";

/** What models of the ends are asked. */
export const modelOptions = {
  /** The end asked about. Default 1. */
  end: number("positive count", 1),
  /** Laws among which the end's own is chosen. Default log-normal, log-logistic, Weibull, generalised gamma. */
  laws: withDefault(list<readonly TimeLaw[]>("an array of laws"), chosenAmong),
  /** Default 0.95. */
  level: confidenceLevel,
};

/** Models of all ends, fitted once, from which shares, times and what loss could do to them are read. */
export interface VisitModels {
  readonly visits: Visits;
  /** None where there is nothing to be fitted. */
  readonly models: readonly EndModel[];
  /** The end asked about. */
  readonly end: number;
  /** Up to where mean times are taken. */
  readonly horizon: number;
  readonly level: number;
  /** Why there are no figures. */
  readonly reason: Reason | null;
}

interface ModelsAsked {
  readonly end: number;
  readonly laws: readonly TimeLaw[];
  readonly level: number;
  /** The last time in the data where nothing is asked for. */
  readonly horizon?: number | undefined;
}

/** @throws ArgumentError naming the column and index at fault */
export function visitModelsOf(
  columns: VisitColumns,
  { horizon: asked, ...options }: ModelsAsked,
): VisitModels {
  const visits = visitsOf(columns);
  const { end, level } = options;
  const horizon = asked ?? Math.max(...lastSeen(visits, null));
  const models = visits.total > 0 && horizon > 0 ? modelsOf(visits, options) : [];
  const failed = models.find(({ reason }) => reason !== null);
  const none = models.length === 0 ? "no-events" : null;
  return {
    visits,
    models,
    end,
    horizon,
    level,
    reason: visits.total > 0 ? (failed?.reason ?? none) : "no-rows",
  };
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

/** Rows that count, or the clusters that they make. */
function unitsOf({ left, weights, clusters }: Visits): number {
  if (clusters !== undefined) return clusterIndex({ times: left, clusters }).count;
  return weights.reduce((count, weight) => count + Number(weight > 0), 0);
}

/** Up to when a group's curve rests on somebody seen; for ever where everybody still followed had an end. */
export function reachOf(visits: Visits, place: number): number {
  const [ended, still] = lastSeen(visits, place);
  return ended > still ? Number.POSITIVE_INFINITY : still;
}

/** How a figure of these models is spread. */
export function spreadOf({ visits, models, end, level }: VisitModels): (variance: number) => Spread {
  const units = unitsOf(visits);
  const own = models.find((model) => model.end === end)!;
  const parameters = own.pieces.reduce((most, { fit }) => Math.max(most, fit.parameters), 0);
  return (variance) => ({ variance, units, parameters, level });
}
