import type { Reason } from "../../shared/figure.js";

/**
 * Why a site cannot be pooled, or a pooled figure has no value; beside the reasons of any figure:
 *
 * - `no-estimate`: the site gave none
 * - `not-finite`: the estimate or its variance has no limit, so that it tells nothing
 * - `too-few-sites`: fewer sites than the figure needs
 * - `closer-than-chance`: the sites lie closer together than their errors would have them, so that no spread fits
 */
export type PoolingReason = Reason | "no-estimate" | "not-finite" | "too-few-sites" | "closer-than-chance";
