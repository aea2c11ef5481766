import { checkColumnNames, type OptionsOf, oneOf, readOptions } from "../../shared/options.js";
import { hazardsRegression } from "../fit/hazards-regression.js";
import { type HazardFit, hazardOptions } from "../layout/hazard-fit.js";
import type { HazardColumns } from "../layout/sorted-rows.js";
import { hazardColumnsNames } from "../layout/sorted-rows.js";
import { summedTieMethods } from "../layout/ties.js";
import { type PenalisedHazardFit, penalisedHazardsRegression } from "./penalised-regression.js";

export const automaticHazardOptions = {
  ...hazardOptions,
  /** Default "efron". */
  ties: oneOf(summedTieMethods, "efron"),
};

export interface AutomaticHazardOptions extends OptionsOf<typeof automaticHazardOptions> {}

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
  options: AutomaticHazardOptions = {},
): ChosenHazardFit {
  checkColumnNames(hazardColumnsNames, { columns });
  const asked = readOptions(automaticHazardOptions, options);
  const ordinary = hazardsRegression(columns, asked);
  if (ordinary.status !== "monotone-likelihood") return { chosen: "ordinary", ordinary, penalised: null };
  const { ties, level } = asked;
  return { chosen: "penalised", ordinary, penalised: penalisedHazardsRegression(columns, { ties, level }) };
}
