import type { OutcomeRecord } from "../../cohort/record.js";
import { clusteredHazardRatios } from "../../statistics/hazards/index.js";
import { hazardsRegression } from "../../statistics/index.js";
import { estimateOf } from "../estimates.js";
import type { ExactEffect } from "../exact-results.js";
import { timeToEventOf } from "../groups.js";
import type { Pair } from "../pairs.js";
import type { Plan } from "../plan.js";
import { adjustersOf, type NumericAdjuster, type StratumAdjuster, strataOf } from "../strata.js";
import { effectOf } from "./effect.js";

/** Rows of a pair that have every covariate, as the regression takes them. */
interface HazardRows {
  readonly records: readonly OutcomeRecord[];
  readonly isCompared: Int32Array;
}

/** Ratio of the rates of return, compared over reference: crude, and adjusted by strata and covariates. */
export function hazardRatios(pair: Pair, plan: Plan): ExactEffect[] {
  const { strata, numbers } = adjustersOf(plan);
  const crude = hazardRatio({ pair, strata: [], numbers: [] }, plan);
  return strata.length + numbers.length === 0
    ? [crude]
    : [crude, hazardRatio({ pair, strata, numbers }, plan)];
}

/** A comparison of two groups and what it holds equal. */
export interface HazardModel {
  readonly pair: Pair;
  readonly strata: readonly StratumAdjuster[];
  readonly numbers: readonly NumericAdjuster[];
}

function hazardRatio(model: HazardModel, plan: Plan): ExactEffect {
  const { strata, numbers } = model;
  const { rows, missing, columns } = hazardRowsOf(model);
  const { converged, ratio, standardError } = fitted(columns, plan);
  const { estimate, lower, upper, p, reason } = ratio;
  return effectOf(model.pair, plan, {
    measure: "hazard_ratio",
    unit: "ratio",
    main: true,
    adjusted_for: [...strata, ...numbers],
    estimate: estimateOf({
      value: estimate,
      lower,
      upper,
      reason: converged ? reason : (reason ?? "not-converged"),
    }),
    standard_error: standardError,
    p,
    method: "proportional_hazards",
    ...sidesOf(rows),
    left_out: missing > 0 ? [{ stratum: numbers.join(", "), n: missing, reason: "missing-covariate" }] : [],
  });
}

/** The ratio of the first covariate; where persons have several injuries with the interval that holds for few of them. */
function fitted(columns: ReturnType<typeof hazardColumns>, { confidence_level: level }: Plan) {
  const { clusters } = columns;
  if (clusters === undefined) {
    const fit = hazardsRegression(columns, { level });
    const standardError = fit.standardErrors[0] ?? null;
    return { converged: fit.converged, ratio: fit.hazardRatios[0]!, standardError };
  }
  const { fit, hazardRatios } = clusteredHazardRatios({ ...columns, clusters }, { level });
  const ratio = hazardRatios[0]!;
  return { converged: fit.converged, ratio, standardError: ratio.standardError };
}

/** The rows a model can use, as columns of the regression, and how many rows lack a covariate. */
export function hazardRowsOf(model: HazardModel) {
  const { rows, missing } = completeRows(model.pair, model.numbers);
  return { rows, missing, columns: hazardColumns(rows, model) };
}

/** Columns of the regression: the compared group first, then the numbers; categories make strata. */
function hazardColumns({ records, isCompared }: HazardRows, { pair, strata, numbers }: HazardModel) {
  return {
    ...timeToEventOf(records, pair.clustered),
    ...(strata.length > 0 ? { strata: strataOf(records, strata).codes } : {}),
    covariates: {
      names: ["compared", ...numbers],
      columns: [
        isCompared,
        ...numbers.map((field) => Float64Array.from(records, ({ covariates }) => covariates[field]!)),
      ],
    },
  };
}

function completeRows({ records, isCompared }: Pair, numbers: readonly NumericAdjuster[]) {
  const isComplete = ({ covariates }: OutcomeRecord) => numbers.every((field) => covariates[field] !== null);
  if (records.every(isComplete)) return { rows: { records, isCompared }, missing: 0 };
  const keep = records.flatMap((record, row) => (isComplete(record) ? [row] : []));
  const rows: HazardRows = {
    records: keep.map((row) => records[row]!),
    isCompared: Int32Array.from(keep, (row) => isCompared[row]!),
  };
  return { rows, missing: records.length - keep.length };
}

function sidesOf({ records, isCompared }: HazardRows): Pick<ExactEffect, "n" | "events"> {
  const n = { compared: 0, reference: 0 };
  const events = { compared: 0, reference: 0 };
  records.forEach(({ end }, row) => {
    const side = isCompared[row] === 1 ? "compared" : "reference";
    n[side]++;
    if (end === "milestone") events[side]++;
  });
  return { n, events };
}
