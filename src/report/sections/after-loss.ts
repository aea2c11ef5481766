import type { LossDifference, LossShare, Results } from "../../study/results.js";
import { adjustedFor } from "../../words/adjustment.js";
import {
  factorCell,
  lossOfDifference,
  lossOfShare,
  lossQuestion,
  lossUnderModel,
} from "../../words/after-loss.js";
import { isSome } from "../../words/counts.js";
import { curveName } from "../../words/curve-families.js";
import { estimateWords, intervalName } from "../../words/estimates.js";
import { comparisonName } from "../../words/measures.js";
import { share } from "../../words/numbers.js";
import { groupName } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import type { ReportContext } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, bullets, heading } from "../layout/blocks.js";
import { figuresOfKind } from "../layout/figure.js";
import { shareCell } from "../layout/share-cell.js";
import { type Row, table } from "../layout/table.js";
import { lossSentences } from "../plain/loss.js";

/** How far those lost could move the main figures; nothing where small cells are left out. */
export function afterLoss(context: ReportContext): Safe | null {
  const { results } = context;
  const bounds = results.loss_bounds;
  if (results.accounting.analysis.analysed === 0 || bounds === null) return null;
  const asked = { plan: results.plan, bounds };
  const said = new Set([
    ...lossSentences(results),
    ...bounds.shares.map((one) => lossOfShare(one, asked)),
    ...bounds.differences.map((one) => lossOfDifference(one, asked)),
  ]);
  return html`${heading("How far those lost could change the answer")}${behind(
    "If those lost were unlike those followed",
    html`<p>${[lossQuestion, lossUnderModel(results)].join(" ").trim()}</p>
${bullets([...said])}${figuresOfKind(context, { family: "loss", groups: null })}${sharesTable(results)}${differencesTable(results)}`,
  )}`;
}

function sharesTable({ loss_bounds: bounds, plan }: Results): Safe {
  const row = (one: LossShare): Row => [
    curveName(one, plan.compare.by),
    one.n,
    one.lost,
    shareCell(one.none_back),
    shareCell(one.as_followed),
    shareCell(one.all_back),
    factorCell(one.line),
  ];
  return table({
    caption: `Share back by ${weeks(bounds!.week)}, if those lost before were unlike those followed`,
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "Lost before", align: "numbers" },
      { head: "None of them back", align: "numbers" },
      { head: "As estimated", align: "numbers" },
      { head: "All of them back", align: "numbers" },
      { head: `Rate of those lost at which it crosses ${share(bounds!.line)}`, align: "numbers" },
    ],
    groups: [{ heading: null, rows: bounds!.shares.filter(({ n }) => isSome(n)).map(row) }],
    note: `In square brackets: ${intervalName(plan.confidence_level)}s. Rates are those of the injuries still followed, times a factor.`,
  });
}

function differencesTable({ loss_bounds: bounds, plan }: Results): Safe | null {
  const { differences, week } = bounds!;
  if (differences.length === 0) return null;
  const { by } = plan.compare;
  const nameOf = ({ compared, reference }: LossDifference) =>
    comparisonName(groupName(compared, by), groupName(reference, by));
  const row = (one: LossDifference): Row => [
    nameOf(one),
    adjustedFor(one.adjusted_for),
    `${one.lost.compared} and ${one.lost.reference}`,
    estimateWords(one.lowest, "percentage points"),
    estimateWords(one.as_followed, "percentage points"),
    estimateWords(one.highest, "percentage points"),
    factorCell(one.tipping),
  ];
  return table({
    caption: `Difference in the share back by ${weeks(week)}, if those lost before were unlike those followed, percentage points`,
    columns: [
      { head: "Groups" },
      { head: "Adjusted for" },
      { head: "Lost before", align: "numbers" },
      { head: "Worst case of the compared group", align: "numbers" },
      { head: "As estimated", align: "numbers" },
      { head: "Best case of the compared group", align: "numbers" },
      {
        head: "Rate of those lost of the compared group at which the interval comes to include, or exclude, no difference",
        align: "numbers",
      },
    ],
    groups: [{ heading: null, rows: differences.map(row) }],
    note: `In brackets: ${intervalName(plan.confidence_level)}s. Worst case: none of those lost of the compared group is back and all of the reference group; best case: the other way about. The rate of those lost of the reference group is the inverse.`,
  });
}
