import type { Results } from "../../study/results.js";
import { estimandNumber } from "../../words/estimands.js";
import { html, type Safe } from "../escape.js";

/** The place of an estimand in the page. */
export const estimandAnchor = (number: number): string => `figure-of-${number}`;

/** A link to what a figure is a figure of, as a number in square brackets; null where it has no such line. */
export function estimandMark(id: string, results: Pick<Results, "estimands">): Safe | null {
  const number = estimandNumber(id, results);
  return number === null
    ? null
    : html`<a class="figure-of" href="#${estimandAnchor(number)}" aria-label="What this is a figure of: ${number}">[${number}]</a>`;
}

/** Links to what several figures are figures of; null where there are none. */
export function estimandMarks(ids: readonly string[], results: Pick<Results, "estimands">): Safe | null {
  const marks = [...new Set(ids)].map((id) => estimandMark(id, results)).filter((mark) => mark !== null);
  return marks.length === 0 ? null : html`${marks}`;
}

/** The same as a line above the figures of one estimand. */
export function estimandLine(ids: readonly string[], results: Pick<Results, "estimands">): Safe | null {
  const marks = estimandMarks(ids, results);
  return marks === null ? null : html`<p class="note">Of whom, and how counted: ${marks}</p>\n`;
}
