import type { Estimate } from "../../study/results.js";
import { intervalWords } from "../../words/estimates.js";
import { share } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { html, type Safe } from "../escape.js";

/** A share with its interval beneath it, or the reason why there is none. */
export function shareCell(estimate: Estimate): Safe | string {
  if (estimate.value === null) return reasonWords(estimate.reason);
  const interval = intervalWords(estimate, "share");
  return html`${share(estimate.value)}${interval === "" ? null : html`<br><small>[${interval}]</small>`}`;
}

/** What an estimate without a model leaves open of a share: one share, or the two between which it lies. */
export function aloneCell(
  alone: { readonly lower: number | null; readonly upper: number | null } | undefined,
): string {
  if (alone === undefined || alone.lower === null || alone.upper === null) return "\u2013";
  const [from, to] = [share(alone.lower), share(alone.upper)];
  return from === to ? from : `${from} to ${to}`;
}
