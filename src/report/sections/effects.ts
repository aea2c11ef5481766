import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import type { Definitions, EffectResult, Results } from "../../study/results.js";
import { associationLine, undecidedLine } from "../../words/cautions.js";
import { definitionHeading, howToPool, isKeptApart, sitesWords } from "../../words/definitions.js";
import { directionSentence } from "../../words/directions.js";
import { nothingCompared } from "../../words/measures.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, cautionAgain, heading } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

/** Crude beside adjusted, with what was left out; the forest of the main effects. */
export function effectsSection(context: ReportContext): Section {
  const { results } = context;
  const { definitions, effects, plan } = results;
  if (isKeptApart(results)) return withinDefinitions(definitions!, context);
  const shown = effects.filter(({ measure }) => measureOf(measure).outcome === "return");
  if (shown.length === 0) return section("effects", html`<p>${nothingCompared}</p>\n${cautionAgain()}`);
  return section(
    "effects",
    html`<p>${directionSentence(shown.map(({ measure }) => measure))} ${undecidedLine} ${associationLine(labelOf(plan.compare.by))}</p>
${mainOnes(shown, results)}${behind("Every difference, as a figure and as a table, and over time", html`${figuresIn(context, "effects")}${effectsTable(shown, { caption: "Differences between the groups, crude and adjusted", counting: "returns", results })}${leftOutList(shown, plan.compare.by)}`)}${cautionAgain()}`,
  );
}

/** The differences by the main landmark and up to the horizon, that a reader looks for first. */
const mainOnes = (shown: readonly EffectResult[], results: Results): Safe =>
  effectsTable(
    shown.filter(({ main }) => main),
    { caption: "The main differences between the groups, crude and adjusted", counting: "returns", results },
  );

/** The groups compared at sites that mean the same, definition by definition. */
function withinDefinitions({ rows }: Definitions, { results }: ReportContext): Section {
  const blocks = rows
    .filter(({ effects }) => effects.length > 0)
    .map(
      (row) =>
        html`${heading(definitionHeading(row))}${effectsTable(row.effects, { caption: `Differences between the groups ${sitesWords(row)}, crude and adjusted`, counting: "returns", results })}${leftOutList(row.effects, results.plan.compare.by)}`,
    );
  return section(
    "effects",
    html`<p>The sites mean different things by the return, so groups are compared only at sites that mean the same.${blocks.length === 0 ? " Here nothing is compared." : ""} ${howToPool} ${undecidedLine} ${associationLine(labelOf(results.plan.compare.by))}</p>
${blocks}${cautionAgain()}`,
  );
}
