/**
 * How several events at one time are taken.
 *
 * - `efron`: each in turn, the others' share of the risk taken off bit by bit
 * - `breslow`: each against the whole risk set
 * - `exact`: the discrete likelihood, all choices of as many rows out of the risk set being compared with the one that came
 */
export const tieMethods = ["efron", "breslow", "exact"] as const;
export type Ties = (typeof tieMethods)[number];

/** The two that are sums over risk sets, and so have a baseline hazard and residuals. */
export const summedTieMethods = ["efron", "breslow"] as const satisfies readonly Ties[];
export type SummedTies = (typeof summedTieMethods)[number];
