import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { caution } from "../layout/blocks.js";
import { figuresOf } from "../layout/figure.js";
import { directionSentence } from "../words/directions.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

/** Crude beside adjusted, with what was left out; the forest of the main effects. */
export function effectsSection(context: ReportContext): Section {
  const { effects, plan } = context.results;
  const shown = effects.filter(({ measure }) => measureOf(measure).outcome === "return");
  if (shown.length === 0)
    return section(
      "effects",
      html`<p>Fewer than two groups have injuries, so nothing is compared.</p>\n${caution()}`,
    );
  return section(
    "effects",
    html`<p>${directionSentence(shown.map(({ measure }) => measure))} An interval that includes no difference means that these data cannot tell, not that there is none. Differences are associated with the ${labelOf(plan.compare.by)}; they are not shown to be caused by it.</p>
${figuresOf(context, ["forest"])}${effectsTable(shown, { caption: "The groups compared, crude and adjusted", counting: "returns", results: context.results })}${leftOutList(shown, context.results.plan.compare.by)}${caution()}`,
  );
}
