/**
 * How several events at one time are taken.
 *
 * - `efron`: each in turn, the others' share of the risk taken off bit by bit
 * - `breslow`: each against the whole risk set
 * - `exact`: the discrete likelihood, all choices of as many rows out of the risk set being compared with the one that came
 */
export type Ties = "efron" | "breslow" | "exact";

/** The two that are sums over risk sets, and so have a baseline hazard and residuals. */
export type SummedTies = Exclude<Ties, "exact">;
