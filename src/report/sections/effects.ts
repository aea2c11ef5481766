import { labelOf } from "../../schema/labels.js";
import { associationLine, undecidedLine } from "../../words/cautions.js";
import { nothingCompared } from "../../words/measures.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { caution } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

/** Crude beside adjusted, with what was left out; the forest of the main effects. */
export function effectsSection(context: ReportContext): Section {
  const { effects, plan } = context.results;
  const shown = effects.filter(({ measure }) => measure !== "distance_change_difference");
  if (shown.length === 0) return section("effects", html`<p>${nothingCompared}</p>\n${caution()}`);
  return section(
    "effects",
    html`<p>A difference in shares above zero and a ratio above one mean an earlier return in the compared group; a difference in mean time above zero means a later one. ${undecidedLine} ${associationLine(labelOf(plan.compare.by))}</p>
${figuresIn(context, "effects")}${effectsTable(shown, { caption: "Differences between the groups, crude and adjusted", counting: "returns", results: context.results })}${leftOutList(shown, context.results.plan.compare.by)}${caution()}`,
  );
}
