import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import { associationLine, undecidedLine } from "../../words/cautions.js";
import { directionSentence } from "../../words/directions.js";
import { nothingCompared } from "../../words/measures.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { caution } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

/** Crude beside adjusted, with what was left out; the forest of the main effects. */
export function effectsSection(context: ReportContext): Section {
  const { effects, plan } = context.results;
  const shown = effects.filter(({ measure }) => measureOf(measure).outcome === "return");
  if (shown.length === 0) return section("effects", html`<p>${nothingCompared}</p>\n${caution()}`);
  return section(
    "effects",
    html`<p>${directionSentence(shown.map(({ measure }) => measure))} ${undecidedLine} ${associationLine(labelOf(plan.compare.by))}</p>
${figuresIn(context, "effects")}${effectsTable(shown, { caption: "Differences between the groups, crude and adjusted", counting: "returns", results: context.results })}${leftOutList(shown, context.results.plan.compare.by)}${caution()}`,
  );
}
