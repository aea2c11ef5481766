import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import { measureOf } from "../../study/measures/index.js";
import type { Results } from "../../study/results.js";
import { distanceCautionLine } from "../../words/cautions.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { plainNumber, rounded, share } from "../../words/numbers.js";
import { reasonWords } from "../../words/reasons.js";
import { groupName } from "../../words/terms.js";
import { days } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { type Row, table } from "../layout/table.js";
import { effectsTable, leftOutList } from "./effect-rows.js";

type Distances = NonNullable<Results["distances"]>;

/** Distances before and after, and what each threshold would call complete; null without imaging. */
export function distancesSection(context: ReportContext): Section | null {
  const { distances, effects, plan } = context.results;
  if (distances === null) return null;
  const changes = effects.filter(({ measure }) => measureOf(measure).outcome === "distance");
  const interval = intervalName(plan.confidence_level);
  return section(
    "distances",
    html`<p>Tendon-phalanx distance of the injured finger at ${distances.pulley}, ${labelOf(distances.position)} position: first and last reading. ${counted(distances.injuries_with_baseline, "injury has", "injuries have")} a first reading, ${distances.injuries_with_both} ${distances.injuries_with_both === 1 ? "has" : "have"} both.${lateWords(distances.injuries_read_late)}</p>
${figuresIn(context, "distances")}${changeTable(distances, { by: plan.compare.by, interval })}${behind("Differences in the change, and thresholds", html`${changes.length === 0 ? null : effectsTable(changes, { caption: "Differences in the change of the distance, crude and adjusted", counting: "readings", results: context.results })}${leftOutList(changes, plan.compare.by)}${thresholdTable(distances, interval)}`)}<p class="caution">${distanceCautionLine}</p>
`,
  );
}

/** Readings that tell nothing of the finger before its treatment. */
function lateWords(n: Distances["injuries_read_late"]): string {
  if (n === 0) return "";
  const injuries = `${n} more ${n === 1 ? "injury was" : "injuries were"}`;
  return ` ${injuries} first read after the first treatment began: that is no baseline, and such injuries are left out here.`;
}

function changeTable(
  { groups }: Distances,
  { by, interval }: { readonly by: string; readonly interval: string },
): Safe {
  return table({
    caption: "First and last distance, mm",
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "First reading: mean \u00b1 SD", align: "numbers" },
      { head: "Last reading: mean \u00b1 SD", align: "numbers" },
      { head: "Change", align: "numbers" },
      { head: interval, align: "numbers" },
      { head: "Median time between readings", align: "numbers" },
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
    note: "SD: standard deviation. Change: last minus first reading; below zero the tendon lies closer to the bone than at first.",
  });
}

function spread(mean: number | null, deviation: number | null): string {
  if (mean === null) return "\u2013";
  const words = rounded(mean, { decimals: 2 });
  return deviation === null ? words : `${words} \u00b1 ${rounded(deviation, { decimals: 2 })}`;
}

function thresholdTable({ thresholds, threshold_mm }: Distances, interval: string): Safe {
  return table({
    caption: "What each threshold would call a complete rupture, first readings",
    columns: [
      { head: "Threshold" },
      { head: "Readings above", align: "numbers" },
      { head: "Share above", align: "numbers" },
      { head: interval, align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: thresholds.map(
          (one): Row => [
            `above ${plainNumber(one.threshold_mm)} mm${one.threshold_mm === threshold_mm ? " (of the study file)" : ""}`,
            `${one.above} of ${one.n}`,
            one.share_above.value === null
              ? reasonWords(one.share_above.reason)
              : share(one.share_above.value),
            intervalWords(one.share_above, "share"),
          ],
        ),
      },
    ],
  });
}
