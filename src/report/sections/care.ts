import type { Warning } from "../../study/results.js";
import { sayFacts, warningWords } from "../../words/warnings.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";

/** Every warning of the run, those that can turn the answer round first; null when there is none. */
export function careSection({ results }: ReportContext): Section | null {
  const codes = [...new Set(results.warnings.map(({ code }) => code))];
  if (codes.length === 0) return null;
  const of = (weight: "heavy" | "light") =>
    codes
      .filter((code) => warningWords[code].weight === weight)
      .map((code) =>
        warningItem(code, {
          warnings: results.warnings.filter((warning) => warning.code === code),
          by: results.plan.compare.by,
        }),
      );
  return section(
    "care",
    html`${list("These can change the answer", of("heavy"))}${list("These limit what the answer says", of("light"))}`,
  );
}

const list = (title: string, items: readonly Safe[]): Safe | null =>
  items.length === 0 ? null : html`<h3>${title}</h3>\n<dl class="warnings">\n${items}</dl>\n`;

function warningItem(
  code: Warning["code"],
  { warnings, by }: { readonly warnings: readonly Warning[]; readonly by: string },
): Safe {
  const { heading, meaning, threshold } = warningWords[code];
  const from = threshold === null ? null : html` Threshold: ${threshold}.`;
  const found = warnings.map((warning) => sayFacts(warning, by)).filter((words) => words !== "");
  const here =
    found.length === 0 ? null : html` <span class="seen">In these data: ${found.join("; ")}.</span>`;
  return html`<dt>${heading}</dt><dd>${meaning}${here}${from}</dd>\n`;
}
