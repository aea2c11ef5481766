import type { Warning } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { sayFacts } from "../words/warning-facts.js";
import { warningWords } from "../words/warnings.js";

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
    html`${list("Can change the answer", of("heavy"))}${list("Good to know", of("light"))}`,
  );
}

const list = (title: string, items: readonly Safe[]): Safe | null =>
  items.length === 0 ? null : html`<h3>${title}</h3>\n<dl class="warnings">\n${items}</dl>\n`;

function warningItem(
  code: Warning["code"],
  { warnings, by }: { readonly warnings: readonly Warning[]; readonly by: string },
): Safe {
  const { heading, meaning } = warningWords[code];
  const seen = warnings.map((warning) => sayFacts(warning, by)).filter((words) => words !== "");
  const here = seen.length === 0 ? null : html` <span class="seen">Here: ${seen.join("; ")}.</span>`;
  return html`<dt>${heading}</dt><dd>${meaning}${here}</dd>\n`;
}
