import { layOut } from "../hazards/layout/layout.js";
import { maximise, type NewtonOptions, type NewtonResult } from "../linear/newton.js";
import { eventsOfCause } from "./causes.js";
import type { SubdistributionLayout } from "./subdistribution-layout.js";
import { type SubdistributionState, subdistributionLikelihood } from "./subdistribution-likelihood.js";
import type { SubdistributionColumns } from "./subdistribution-types.js";

/** The end of the iterations, on the standardised covariates, with everything that the variance needs at that end. */
export interface SubdistributionAscent extends NewtonResult {
  readonly state: SubdistributionState;
}

/**
 * The climb of the hazards regression on the pseudo-likelihood, its finding of infinite coefficients included. The climb asks the rows only
 * for the ranges of the covariates, so the layout of the cause-specific regression serves it.
 */
export function ascend(
  fitted: {
    readonly columns: SubdistributionColumns;
    readonly layout: SubdistributionLayout;
    readonly cause: number;
  },
  options: NewtonOptions,
): SubdistributionAscent {
  const { columns, layout, cause } = fitted;
  const { times, causes, covariates } = columns;
  const evaluate = subdistributionLikelihood(layout);
  const rows = layOut({ times, events: eventsOfCause(causes, cause), covariates });
  const result = maximise(rows, { ...options, evaluate });
  return { ...result, state: evaluate(result.beta) };
}
