import { counted } from "../../schema/counted.js";
import type { AfterReturnGroup, Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { curveName } from "../../words/curve-families.js";
import { estimateWords, intervalName } from "../../words/estimates.js";
import { plainNumber } from "../../words/numbers.js";
import { weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, cautionAgain } from "../layout/blocks.js";
import { estimandLine } from "../layout/estimand-mark.js";
import { figuresIn } from "../layout/figure.js";
import { shareCell } from "../layout/share-cell.js";
import { type Row, table } from "../layout/table.js";
import { ofAfter } from "../plain/figures-of.js";

/** Whether returns lasted: new ruptures, operations, levels and complications; null where small cells are left out. */
export function afterSection(context: ReportContext): Section | null {
  const { results } = context;
  const { after_return: after } = results;
  const groups = (after?.groups ?? []).filter(({ n }) => isSome(n));
  if (after === null || groups.length === 0) return null;
  return section(
    "after",
    html`<p>A return need not last. What came after it is counted up to the last day on which the injury was followed. ${unknownOrder(after.order_not_recorded)}</p>
${estimandLine(ofAfter, results)}${rupturesTable(groups, results)}${behind("Back and not ruptured again over time, levels and complications", html`${figuresIn(context, "after")}${sharesTable(groups, results)}${levelTable(groups, results)}${complicationsTable(groups, results)}`)}${cautionAgain()}`,
  );
}

const unknownOrder = (n: number | string): string =>
  n === 0
    ? ""
    : `In ${counted(n as number, "injury", "injuries")} the new rupture falls within the span in which the return is known, so that their order is not recorded; the day on which the return is placed decides.`;

const nameOf = ({ family, label }: AfterReturnGroup, { plan }: Results): string =>
  curveName({ family, label }, plan.compare.by);

function rupturesTable(groups: readonly AfterReturnGroup[], results: Results): Safe {
  return table({
    caption: "New ruptures and operations after the return",
    columns: [
      { head: "Group" },
      { head: "Returned", align: "numbers" },
      { head: "New rupture of the finger", align: "numbers" },
      { head: "Operation", align: "numbers" },
      { head: "Person-months followed", align: "numbers" },
      { head: "New ruptures per 100 person-months", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: groups.map(
          (group): Row => [
            nameOf(group, results),
            group.returned,
            group.ruptured_again,
            group.operated,
            group.person_months === null ? "\u2013" : plainNumber(group.person_months, 1),
            estimateWords(group.rate, "rate"),
          ],
        ),
      },
    ],
    note: `In brackets: ${intervalName(results.plan.confidence_level)}s by the exact limits of a count, widened where people have several injuries. Rates assume that ruptures come at an even pace after the return.`,
  });
}

function sharesTable(groups: readonly AfterReturnGroup[], results: Results): Safe {
  return table({
    caption: "Back and not ruptured again, at the landmarks",
    columns: [
      { head: "By" },
      { head: "Back and not ruptured again", align: "numbers" },
      { head: "Back, and ruptured again since", align: "numbers" },
    ],
    groups: groups.map((group) => ({
      heading: `${nameOf(group, results)}: ${counted(group.n, "injury", "injuries")}`,
      rows: group.landmarks.map(
        ({ week, back_and_well, ruptured_again }): Row => [
          weeks(week),
          shareCell(back_and_well),
          shareCell(ruptured_again),
        ],
      ),
    })),
    note: `Shares of all injuries, those who gave up or came to another end before a return among them, with their ${intervalName(results.plan.confidence_level)}s in square brackets. Where nobody is followed after the return, whether it lasted is not known.${results.known_returns.path === "spans" ? " Back and not ruptured again: the share back by the model less those who have left that state since; the figure takes each return on one day." : ""}`,
  });
}

function levelTable(groups: readonly AfterReturnGroup[], results: Results): Safe {
  return table({
    caption: "Latest level beside the level before the injury, of those who returned",
    columns: [
      { head: "Group" },
      { head: "Below it", align: "numbers" },
      { head: "The same", align: "numbers" },
      { head: "Above it", align: "numbers" },
      { head: "Not recorded", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: groups.map((group): Row => {
          const { below, same, above, not_recorded } = group.level;
          return [nameOf(group, results), below, same, above, not_recorded];
        }),
      },
    ],
  });
}

function complicationsTable(groups: readonly AfterReturnGroup[], results: Results): Safe {
  return table({
    caption: "Complications first found after the first treatment began",
    columns: [
      { head: "Group" },
      { head: "Injuries with a visit that says", align: "numbers" },
      { head: "Complication found", align: "numbers" },
      { head: "Share", align: "numbers" },
    ],
    groups: [
      {
        heading: null,
        rows: groups.map((group): Row => {
          const { asked, found, share } = group.complications;
          return [
            nameOf(group, results),
            asked,
            asked === 0 ? "not recorded" : found,
            asked === 0 ? "\u2013" : shareCell(share),
          ];
        }),
      },
    ],
    note: `In square brackets: exact ${intervalName(results.plan.confidence_level)}s. Injuries of one person are taken as independent here.`,
  });
}
