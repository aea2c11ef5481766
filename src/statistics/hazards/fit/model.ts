import { factorOver, maximise, type NewtonResult } from "../../linear/newton.js";
import { invertFactored } from "../../linear/symmetric.js";
import { checkColumnNames, checkResult, readOptions } from "../../shared/options.js";
import { withoutRounding } from "../../shared/sandwich-rounding.js";
import { checkHazardColumns, checkTies } from "../layout/check-columns.js";
import type { HazardFit, HazardOptions } from "../layout/hazard-fit.js";
import { hazardOptions } from "../layout/hazard-fit.js";
import { layOut } from "../layout/layout.js";
import { type HazardColumns, type HazardLayout, hazardColumnsNames } from "../layout/sorted-rows.js";
import type { SummedTies } from "../layout/ties.js";
import { likelihoodOf } from "../likelihood/likelihood.js";
import { moveTo } from "../likelihood/move-state.js";
import { emptyState } from "../likelihood/risk-state.js";
import { describeFit, statusOf } from "./describe-fit.js";
import { climbToLimit } from "./limit-climb.js";
import { robustScore, sandwich, sortedClusters } from "./sandwich.js";

/** A fitted regression in the form that curves, residuals and tests start from: rows sorted once, coefficients on the standardised scale. */
export interface HazardModel {
  readonly fit: HazardFit;
  readonly columns: HazardColumns;
  readonly layout: HazardLayout;
  readonly result: NewtonResult;
  /** Inverse information of the covariates with a finite estimate, standardised, flat; and the sandwich where there are clusters. */
  readonly inverse: Float64Array;
  readonly robust: Float64Array | null;
}

/** @throws ArgumentError where it is not what hazardModel returns */
export function checkModel(model: HazardModel): void {
  checkResult(
    { model },
    { expected: "a result of hazardModel", has: ["fit", "columns", "layout", "result"] },
  );
}

/** Where the risk sets of a fitted model stand, for the two tie corrections that are sums over risk sets. */
export function stateOf(model: HazardModel, ties: SummedTies): ReturnType<typeof emptyState> {
  const state = emptyState(model.layout, { ties });
  moveTo(state, model.result.beta, new Float64Array(model.layout.size));
  return state;
}

/**
 * Proportional-hazards regression kept with its sorted rows: the start of baselineHazard, predictedCurves, standardisedPredictions,
 * hazardResiduals and hazardConcordance. `fit` is what hazardsRegression gives; formulas, degenerate input and sources stand there.
 *
 * @throws ArgumentError as hazardsRegression
 */
export function hazardModel(columns: HazardColumns, options: HazardOptions = {}): HazardModel {
  checkColumnNames(hazardColumnsNames, { columns });
  const { ties, level, maximumIterations, tolerance } = readOptions(hazardOptions, options);
  checkHazardColumns(columns);
  checkTies(columns, ties);
  const layout = layOut(columns);
  const end = maximise(layout, { evaluate: likelihoodOf(layout, ties), maximumIterations, tolerance });
  const result = ties === "exact" ? end : climbToLimit(layout, end, ties);
  const status = statusOf(result, layout);
  const silent = status === "no-rows" || status === "no-events";
  const finite = silent ? [] : result.estimable.filter((j) => !result.infinite.includes(j));
  const inverse = invertFactored(factorOver(result.information, finite));
  const clustered =
    columns.clusters && !silent && ties !== "exact"
      ? robustParts(columns, { layout, result, inverse, ties, finite })
      : null;
  const robust = clustered?.covariance ?? null;
  const fit = describeFit(
    { names: columns.covariates.names, layout, result, finite, status },
    {
      inverse,
      robust,
      clusters: clustered?.pulling ?? null,
      robustScore: clustered?.score ?? null,
      ties,
      level,
    },
  );
  return { fit, columns, layout, result, inverse, robust };
}

function robustParts(
  columns: HazardColumns,
  fitted: {
    readonly layout: HazardLayout;
    readonly result: NewtonResult;
    readonly inverse: Float64Array;
    readonly ties: SummedTies;
    readonly finite: readonly number[];
  },
) {
  const { layout, result, inverse, ties } = fitted;
  const clusters = sortedClusters(columns, layout.row);
  const state = emptyState(layout, { ties });
  const score = new Float64Array(layout.size);
  moveTo(state, new Float64Array(layout.size), score);
  const atZero = robustScore(state, { clusters, over: result.estimable });
  moveTo(state, result.beta, score);
  const { covariance, pulling } = sandwich(state, { inverse, clusters });
  return { score: atZero, covariance: withoutRounding(covariance, inverse), pulling };
}
