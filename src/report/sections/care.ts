import type { Warning } from "../../study/results.js";
import { moveWords } from "../../words/could-move.js";
import { weeks } from "../../words/times.js";
import { sayFacts, warningWords } from "../../words/warnings.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind } from "../layout/blocks.js";

/**
 * Every warning of the run, ranked by how far it could move the main figure; those of which that cannot be computed follow, by their kind.
 * Null when there is none.
 */
export function careSection({ results }: ReportContext): Section | null {
  const codes = [...new Set(results.warnings.map(({ code }) => code))];
  if (codes.length === 0) return null;
  const ofCode = (code: Warning["code"]) => results.warnings.filter((warning) => warning.code === code);
  const reach = (code: Warning["code"]) =>
    Math.max(-1, ...ofCode(code).map(({ could_move }) => could_move?.points ?? -1));
  const items = (kept: (code: Warning["code"]) => boolean) =>
    codes
      .filter(kept)
      .toSorted((one, other) => reach(other) - reach(one))
      .map((code) => warningItem(code, { warnings: ofCode(code), by: results.plan.compare.by }));
  const ofWeight = (weight: "heavy" | "light") =>
    items((code) => reach(code) < 0 && warningWords[code].weight === weight);
  const figure = results.effects.length > 0 ? "the difference in the share back" : "the share back";
  return section(
    "care",
    html`${list(
      `How far these could move ${figure} by ${weeks(results.plan.main_landmark_weeks)}, the most first`,
      items((code) => reach(code) >= 0),
    )}${list("These can change the answer; by how much cannot be computed", ofWeight("heavy"))}${list("These limit what the answer says", ofWeight("light"))}${behind(
      "What each warning means, and from where on it is given",
      html`<dl class="meanings">\n${codes.map(meaningOf)}</dl>\n`,
    )}`,
  );
}

const list = (title: string, items: readonly Safe[]): Safe | null =>
  items.length === 0 ? null : html`<h3>${title}</h3>\n<ul class="warnings">\n${items}</ul>\n`;

function warningItem(
  code: Warning["code"],
  { warnings, by }: { readonly warnings: readonly Warning[]; readonly by: string },
): Safe {
  const { heading } = warningWords[code];
  const found = warnings
    .map((warning) => [sayFacts(warning, by), moveWords(warning)].filter((words) => words !== "").join(", "))
    .filter((words) => words !== "");
  const here = found.length === 0 ? null : html`<br>In these data: ${found.join("; ")}.`;
  return html`<li><strong>${heading}</strong>${here}</li>\n`;
}

function meaningOf(code: Warning["code"]): Safe {
  const { heading, meaning, threshold } = warningWords[code];
  const from = threshold === null ? null : html` Threshold: ${threshold}.`;
  return html`<dt>${heading}</dt><dd>${meaning}${from}</dd>\n`;
}
