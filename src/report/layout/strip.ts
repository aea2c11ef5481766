import type { Estimate } from "../../study/results.js";
import { type Safe, trusted } from "../escape.js";

/**
 * A share and its interval as a small drawing on a line from none to all: for the eye only, the numbers stand
 * beside it. Empty where there is no share.
 */
export function shareStrip({ value, lower, upper }: Estimate): Safe {
  if (value === null) return trusted("");
  const at = (share: number) => (6 + 188 * share).toFixed(1);
  const whisker =
    lower === null || upper === null
      ? ""
      : `<line class="strip-interval" x1="${at(lower)}" x2="${at(upper)}" y1="12" y2="12"/>`;
  return trusted(
    `<svg class="strip" viewBox="0 0 200 24" width="200" height="24" aria-hidden="true" focusable="false">` +
      `<line class="strip-axis" x1="6" x2="194" y1="12" y2="12"/>` +
      `<line class="strip-axis" x1="6" x2="6" y1="7" y2="17"/><line class="strip-axis" x1="100" x2="100" y1="9" y2="15"/><line class="strip-axis" x1="194" x2="194" y1="7" y2="17"/>` +
      `${whisker}<circle class="strip-value" cx="${at(value)}" cy="12" r="5"/></svg>`,
  );
}
