import { checkIsColumn } from "../../shared/arguments.js";
import { clusterIndex } from "../../shared/clusters.js";
import { checkColumnNames, type NamesOf, readOptions } from "../../shared/options.js";
import { hazardResiduals } from "../diagnostics/residuals.js";
import { type HazardModel, hazardModel } from "../fit/model.js";
import { checkSummedTies } from "../layout/check-columns.js";
import type { HazardFit } from "../layout/hazard-fit.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import { type AutomaticHazardOptions, automaticHazardOptions } from "../penalised/automatic-regression.js";
import { fitFailure } from "../prediction/baseline-table.js";
import { byStudent, type ClusteredHazardRatio } from "./by-student.js";
import { changesByDeletion } from "./deleted-clusters.js";

/** Rows that belong together: clusters are needed here. */
export interface ClusteredHazardColumns extends HazardColumns {
  readonly clusters: ArrayLike<number>;
}

export const clusteredHazardColumnsNames: NamesOf<ClusteredHazardColumns> = {
  clusters: true,
  strata: true,
  covariates: true,
  times: true,
  events: true,
  entries: true,
  weights: true,
};

export type { ClusteredHazardRatio };

export interface ClusteredHazardFit {
  /** The regression itself, with its large-sample errors. */
  readonly fit: HazardFit;
  readonly clusters: number;
  /** clusters - 1. */
  readonly df: number;
  /**
   * - `deletion`: each cluster's influence multiplied by what its deletion changes
   * - `factor`: the sandwich times G / (G - 1), for very many clusters, or where some coefficient has no finite estimate
   */
  readonly correction: "deletion" | "factor";
  /** Of the coefficients, in the caller's units; null for those without an estimate. */
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly hazardRatios: readonly ClusteredHazardRatio[];
}

/** Influence of each cluster on each coefficient, to first order: sums of the rows' dfbeta. */
function influencesOf(model: HazardModel, cluster: { readonly of: Int32Array; readonly count: number }) {
  const { weights } = model.columns;
  return hazardResiduals(model).dfbeta.map((column) => {
    const sums = new Float64Array(cluster.count);
    column.forEach((value, row) => {
      sums[cluster.of[row]!]! += value * (weights?.[row] ?? 1);
    });
    return sums;
  });
}

/** Half the sum over clusters of a d' + d a', a the influence and d the change by deletion; null where there is none to be had. */
function correctedCovariance(
  model: HazardModel,
  kept: readonly number[],
): ((j: number, k: number) => number) | null {
  const { fit, columns } = model;
  checkSummedTies(fit.ties);
  const coefficients = kept.map((j) => fit.coefficients[j]!);
  const changes = changesByDeletion(columns, { kept, coefficients, ties: fit.ties });
  if (changes === null) return null;
  const influences = influencesOf(model, clusterIndex(columns));
  const own = kept.map((j) => influences[j] as Float64Array);
  const covariance = (j: number, k: number): number =>
    changes.reduce((sum, change, g) => {
      const a = own[j]![g]!;
      const b = own[k]![g]!;
      // what is left without this cluster estimates nothing: its influence stands for the change
      return sum + (change === null ? a * b : (a * change[k]! + b * change[j]!) / 2);
    }, 0);
  const usable = kept.every((_, j) => covariance(j, j) > 0 && Number.isFinite(covariance(j, j)));
  return usable ? covariance : null;
}

/**
 * Proportional-hazards regression whose intervals hold with few clusters, and with strata that clusters run across: a bias-reduced
 * sandwich with Student's t on clusters - 1 degrees of freedom.
 *
 * V = half the sum over clusters of (a_g d_g' + d_g a_g'), where a_g is the cluster's influence (score residuals times the inverse
 * information: the sandwich is the sum of a_g a_g') and d_g the change of the coefficients by one Newton step when its rows are deleted (the
 * sum of d_g d_g' is the jackknife). The sandwich is too small in small samples and the jackknife too large by about as much; the
 * product is for a regression with own baselines what e^2 / (1 - h) is for a linear one. Chosen by simulation, tests/honesty.
 *
 * Degenerate input as in hazardsRegression. With one cluster there is no interval (`too-few-rows`).
 *
 * @param columns as for hazardsRegression, with clusters
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source influence: Lin & Wei 1989, J Am Stat Assoc 84:1074; deletion: Lipsitz, Dear & Zhao 1994, Biometrics 50:842; one factor
 *   1 / (1 - h): Kauermann & Carroll 2001, J Am Stat Assoc 96:1387
 */
export function clusteredHazardRatios(
  columns: ClusteredHazardColumns,
  options: AutomaticHazardOptions = {},
): ClusteredHazardFit {
  checkColumnNames(clusteredHazardColumnsNames, { columns });
  checkIsColumn({ name: "clusters", values: columns.clusters });
  const asked = readOptions(automaticHazardOptions, options);
  const model = hazardModel(columns, asked);
  const { fit } = model;
  const clusters = clusterIndex(columns).count;
  const kept = fit.coefficients.flatMap((b, j) => (b === null ? [] : [j]));
  const corrected =
    fitFailure(model) === null && kept.length > 0 && clusters > 1 ? correctedCovariance(model, kept) : null;
  const factor = clusters / (clusters - 1);
  const covariance = fit.names.map((_, j) =>
    fit.names.map((_, k): number | null => {
      const raw = fit.robustCovariance?.[j]?.[k] ?? null;
      if (raw === null || clusters < 2) return null;
      return corrected ? corrected(kept.indexOf(j), kept.indexOf(k)) : raw * factor;
    }),
  );
  return {
    fit,
    clusters,
    df: Math.max(0, clusters - 1),
    correction: corrected ? "deletion" : "factor",
    covariance,
    hazardRatios: fit.hazardRatios.map((ratio, j) =>
      byStudent(ratio, {
        coefficient: fit.coefficients[j] ?? null,
        variance: covariance[j]?.[j] ?? null,
        df: clusters - 1,
        level: fit.level,
      }),
    ),
  };
}
