import { checkColumn, checkSameLength } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { indexOfCodes } from "../../shared/codes.js";
import type { Reason } from "../../shared/figure.js";
import { checkColumnNames, type NamesOf } from "../../shared/options.js";
import { checkTimeToEvent, type TimeToEvent } from "../../shared/time-to-event.js";
import type { HazardModel } from "../fit/model.js";
import { checkModel } from "../fit/model.js";
import { asDoubles } from "../layout/layout.js";
import { orderByKey } from "../layout/order.js";
import { fitFailure, logHazardOf, standardisedRow } from "../prediction/baseline-table.js";
import { type PairCounts, pairsOfStratum } from "./concordant-pairs.js";

/** TimeToEvent rows with a score that is the higher, the earlier the event is expected. */
export interface ScoredTimes extends TimeToEvent {
  readonly strata?: ArrayLike<number>;
  readonly scores: ArrayLike<number>;
}

export const scoredTimesNames: NamesOf<ScoredTimes> = {
  strata: true,
  scores: true,
  times: true,
  events: true,
  entries: true,
  weights: true,
  clusters: true,
};

/** Pairs are weighted by the product of their rows' weights. */
export interface Concordance {
  /** (concordant + half of those with equal scores) / comparable. */
  readonly estimate: number | null;
  /** Infinitesimal jackknife, summed within clusters. */
  readonly standardError: number | null;
  readonly concordant: number;
  readonly discordant: number;
  /** Comparable pairs with equal scores. */
  readonly tiedScores: number;
  /** Pairs of events at one time, left out: with different scores, and with equal ones. */
  readonly tiedTimes: number;
  readonly tiedBoth: number;
  readonly reason: Reason | null;
}

/**
 * Share of comparable pairs in which the row with the higher score has the earlier event.
 *
 * A pair is comparable where the earlier time is an event and both are at risk then, in one stratum; a censoring at the time of an event counts
 * as later, two events at one time are not compared. Equal scores count one half. With a row's pairs counted by the weight of its partner,
 * its influence is (concordant + tied / 2 - C all) / N; the variance is the sum over clusters of (sum of weight times influence)^2.
 * n log n.
 *
 * @returns null with `no-rows`, `no-events`, or `too-few-rows` where no pair is comparable; the estimate without error, `too-few-rows`, for
 *   one cluster
 * @throws ArgumentError naming the column and index at fault
 * @source Harrell, Lee & Mark 1996, Stat Med 15:361; infinitesimal jackknife: Efron & Stein 1981, Ann Stat 9:586
 */
export function concordance(columns: ScoredTimes): Concordance {
  checkColumnNames(scoredTimesNames, { columns });
  checkTimeToEvent(columns);
  const times = { name: "times", values: columns.times };
  checkSameLength({ name: "scores", values: columns.scores }, times);
  checkColumn({ name: "scores", values: columns.scores }, "finite");
  const n = columns.times.length;
  const counts: PairCounts = {
    concordant: new Float64Array(n),
    discordant: new Float64Array(n),
    tied: new Float64Array(n),
    sums: { concordant: 0, discordant: 0, tiedScores: 0, tiedTimes: 0, tiedBoth: 0 },
  };
  const plain = {
    times: asDoubles(columns.times),
    events: asDoubles(columns.events),
    scores: asDoubles(columns.scores),
    weights: columns.weights ? asDoubles(columns.weights) : new Float64Array(n).fill(1),
    entries: columns.entries ? asDoubles(columns.entries) : null,
  };
  for (const rows of rowsByStratum(columns)) pairsOfStratum(plain, rows, counts);
  const { sums } = counts;
  const comparable = sums.concordant + sums.discordant + sums.tiedScores;
  if (!(comparable > 0)) {
    const reason =
      n === 0 ? "no-rows" : plain.events.every((event) => event === 0) ? "no-events" : "too-few-rows";
    return { estimate: null, standardError: null, ...sums, reason };
  }
  const estimate = (sums.concordant + sums.tiedScores / 2) / comparable;
  const cluster = clusterIndex(columns);
  const influence = new Float64Array(cluster.count);
  for (let row = 0; row < n; row++) {
    const agreeing = counts.concordant[row]!;
    const equal = counts.tied[row]!;
    const all = agreeing + counts.discordant[row]! + equal;
    influence[cluster.of[row]!]! +=
      (plain.weights[row]! * (agreeing + equal / 2 - estimate * all)) / comparable;
  }
  // the influences of all rows cancel: those of a single cluster say nothing
  if (cluster.count < 2) return { estimate, standardError: null, ...sums, reason: "too-few-rows" };
  const variance = influence.reduce((sum, value) => sum + value * value, 0);
  return { estimate, standardError: Math.sqrt(variance), ...sums, reason: null };
}

function rowsByStratum({ strata, times }: ScoredTimes): Int32Array[] {
  const all = Int32Array.from({ length: times.length }, (_, row) => row);
  if (strata === undefined) return [all];
  checkSameLength({ name: "strata", values: strata }, { name: "times", values: times });
  checkColumn({ name: "strata", values: strata }, "code");
  const { codes, index } = indexOfCodes(asDoubles(strata));
  const sorted = orderByKey(all, { of: index, count: codes.length });
  const found: Int32Array[] = [];
  for (let start = 0, end = 0; start < sorted.length; start = end) {
    while (end < sorted.length && index[sorted[end]!] === index[sorted[start]!]) end++;
    found.push(sorted.subarray(start, end));
  }
  return found;
}

/** Concordance of a fitted regression's log hazards with what was seen, within its strata, errors by its clusters. */
export function hazardConcordance(model: HazardModel): Concordance {
  checkModel(model);
  const reason = fitFailure(model);
  if (reason !== null) {
    const none = { concordant: 0, discordant: 0, tiedScores: 0, tiedTimes: 0, tiedBoth: 0 };
    return { estimate: null, standardError: null, ...none, reason };
  }
  const { covariates, ...rows } = model.columns;
  const values = new Float64Array(covariates.columns.length);
  const scores = Float64Array.from({ length: rows.times.length }, (_, row) => {
    covariates.columns.forEach((column, j) => {
      values[j] = column[row]!;
    });
    return logHazardOf(model, standardisedRow(model, values));
  });
  return concordance({ ...rows, scores });
}
