import type { HazardFit, HazardOptions } from "../hazard-fit.js";
import type { HazardColumns } from "../hazards-layout.js";
import { hazardsRegression } from "../hazards-regression.js";
import { type PenalisedHazardFit, penalisedHazardsRegression } from "./penalised-regression.js";
import type { SummedTies } from "./ties.js";

/** The fit to be told, and the ordinary one beside it always. */
export type ChosenHazardFit =
  | { readonly chosen: "ordinary"; readonly ordinary: HazardFit; readonly penalised: null }
  | { readonly chosen: "penalised"; readonly ordinary: HazardFit; readonly penalised: PenalisedHazardFit };

/**
 * The ordinary fit, unless its likelihood is met to rise for ever (status `monotone-likelihood`): then the penalised one, for all covariates.
 *
 * The rule looks at nothing else: neither at the size of the sample nor at how wide an interval came out. Who wants the penalised fit for a
 * small sample asks for it by penalisedHazardsRegression.
 *
 * @throws ArgumentError as hazardsRegression; exact ties have no penalised form
 * @source Heinze & Schemper 2001, Biometrics 57:114
 */
export function automaticHazardsRegression(
  columns: HazardColumns,
  options: HazardOptions & { readonly ties?: SummedTies } = {},
): ChosenHazardFit {
  const ordinary = hazardsRegression(columns, options);
  if (ordinary.status !== "monotone-likelihood") return { chosen: "ordinary", ordinary, penalised: null };
  const { ties = "efron", level = 0.95 } = options;
  return { chosen: "penalised", ordinary, penalised: penalisedHazardsRegression(columns, { ties, level }) };
}
