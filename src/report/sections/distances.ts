import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import type { Results } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { days, level, plainNumber, rounded, share } from "../format.js";
import { figuresOf } from "../layout/figure.js";
import { type Row, table } from "../layout/table.js";
import { distanceCautionLine } from "../words/cautions.js";
import { intervalWords, valueWords } from "../words/estimates.js";
import { sayReason } from "../words/reasons.js";
import { groupName } from "../words/terms.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

type Distances = NonNullable<Results["distances"]>;

/** Distances before and after, and what each threshold would call complete; null without imaging. */
export function distancesSection(context: ReportContext): Section | null {
  const { distances, effects, plan } = context.results;
  if (distances === null) return null;
  const changes = effects.filter(({ measure }) => measureOf(measure).outcome === "distance");
  const intervalName = `${level(plan.confidence_level)} interval`;
  return section(
    "distances",
    html`<p>Distance at ${distances.pulley}, ${labelOf(distances.position)}, injured finger: first reading and last. ${distances.injuries_with_baseline} injuries have a first reading, ${distances.injuries_with_both} have both.</p>
${figuresOf(context, ["distances"])}${changeTable(distances, { by: plan.compare.by, intervalName })}${changes.length === 0 ? null : effectsTable(changes, { caption: "Differences in the change of the distance", counting: "readings", results: context.results })}${leftOutList(changes, plan.compare.by)}${thresholdTable(distances, intervalName)}<p class="caution">${distanceCautionLine}</p>
`,
  );
}

function changeTable(
  { groups }: Distances,
  { by, intervalName }: { readonly by: string; readonly intervalName: string },
): Safe {
  return table({
    caption: "Distance before and after, mm",
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "Before: mean \u00b1 SD", align: "numbers" },
      { head: "After: mean \u00b1 SD", align: "numbers" },
      { head: "Change", align: "numbers" },
      { head: intervalName, align: "numbers" },
      { head: "Median time between", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: groups.map(
          (group): Row => [
            groupName(group.label, by),
            group.n,
            spread(group.before_mean, group.before_standard_deviation),
            spread(group.after_mean, group.after_standard_deviation),
            valueWords(group.change, "mm"),
            intervalWords(group.change, "mm"),
            group.median_days_between === null ? "\u2013" : days(group.median_days_between),
          ],
        ),
      },
    ],
    note: "SD: standard deviation. Change: after less before; below zero the tendon lies closer to the bone than before.",
  });
}

function spread(mean: number | null, deviation: number | null): string {
  if (mean === null) return "\u2013";
  const words = rounded(mean, { decimals: 2 });
  return deviation === null ? words : `${words} \u00b1 ${rounded(deviation, { decimals: 2 })}`;
}

function thresholdTable({ thresholds, threshold_mm }: Distances, intervalName: string): Safe {
  return table({
    caption: "What each threshold would call complete, first readings",
    columns: [
      { head: "Threshold" },
      { head: "Above", align: "numbers" },
      { head: "Share above", align: "numbers" },
      { head: intervalName, align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: thresholds.map(
          (one): Row => [
            `above ${plainNumber(one.threshold_mm)} mm${one.threshold_mm === threshold_mm ? " (of the study file)" : ""}`,
            `${one.above} of ${one.n}`,
            one.share_above.value === null ? sayReason(one.share_above.reason) : share(one.share_above.value),
            intervalWords(one.share_above, "share"),
          ],
        ),
      },
    ],
  });
}
