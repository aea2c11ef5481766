import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteDescription } from "../description/index.js";
import { isEnough, rangeOf } from "./apart.js";

/** Shares lost further apart than this are called unlike. Our choice, no source: as large as differences that studies look for. */
const unlikeFrom = 0.1;

/** Whom each site lost before the horizon, and whether the sites lost alike. */
export function lossesOf(descriptions: readonly SiteDescription[]): Harmonised["losses"] {
  const range = rangeOf(
    descriptions.filter(({ analysed }) => isEnough(analysed)).map(({ loss }) => loss.share),
  );
  return {
    horizon_days: descriptions[0]?.loss.horizon_days ?? 0,
    verdict: range === null ? "not_known" : range.greatest - range.least > unlikeFrom ? "unlike" : "alike",
    lowest: range?.least ?? null,
    highest: range?.greatest ?? null,
    sites: descriptions.map(({ site, analysed, loss: { horizon_days: _, ...loss } }) => ({
      site,
      analysed,
      ...loss,
    })),
  };
}
