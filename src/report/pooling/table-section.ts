import type { PooledResults } from "../../pooling/pooled/index.js";
import { intervalName } from "../../words/estimates.js";
import { share } from "../../words/numbers.js";
import { capital } from "../../words/phrases.js";
import {
  type AddedTables,
  binsInWords,
  hasCommonCurve,
  leftOutOfTableWords,
  sitesWithoutTable,
  tableCautions,
  tableRatioWords,
  tablesOpening,
  tableTestWords,
} from "../../words/pooling/risk-sets.js";
import { groupName } from "../../words/terms.js";
import { byDay } from "../../words/times.js";
import { limits, unitAfter } from "../../words/units.js";
import type { DrawnFigure } from "../context.js";
import { html, type Safe } from "../escape.js";
import { bullets, caution, heading } from "../layout/blocks.js";
import { drawnFigure } from "../layout/figure.js";
import type { PagePart } from "../layout/shell.js";
import { type Column, type Row, table } from "../layout/table.js";

const numbers = (head: string): Column => ({ head, align: "numbers" });

/** What the sites' risk-set tables say; nothing where no site was asked for one. */
export function tablePart(results: PooledResults, figures: readonly DrawnFigure[]): readonly PagePart[] {
  const { risk_sets, agreed } = results;
  if (risk_sets === null) return [];
  const { together } = risk_sets;
  const without = sitesWithoutTable(risk_sets);
  const body =
    together === null
      ? html`<p>No site has sent a risk-set table. ${without.join(" ")}</p>\n`
      : html`<p>${tablesOpening(together)} ${without.join(" ")}</p>
${bullets([...together.hazard_ratios.map((one) => tableRatioWords(one, { tables: together, compare: agreed.file.compare })), tableTestWords(together)])}${heading("Before you use these numbers")}${bullets(tableCautions(together))}${figures.map((figure) => drawnFigure(figure, agreed.file.synthetic))}${hasCommonCurve(together) ? curvesTable(together, results) : null}${tablesOfSites(together, results)}${caution()}`;
  return [{ id: "tables", title: "All injuries together, from risk-set tables", body }];
}

/** About so many days are shown; all of them are in the file of the curves. */
const mostShown = 12;

function curvesTable({ curves, level }: AddedTables, { agreed, answers }: PooledResults): Safe {
  const { compare } = agreed.file;
  const landmarks = answers.filter(({ measure }) => measure === "share_back").map(({ day }) => day);
  return table({
    caption:
      curves.answers === "share_of_people"
        ? "Share back, all sites as one"
        : "Share that would be back if nobody came to another end, all sites as one",
    columns: [
      { head: "By" },
      numbers("At risk"),
      numbers("Came back so far"),
      numbers("Share back"),
      numbers(intervalName(level)),
    ],
    groups: curves.groups.map(({ group, n, points }) => {
      const step = Math.max(1, Math.ceil(points.length / mostShown));
      const shown = points.filter(({ day }, i) => (i + 1) % step === 0 || landmarks.includes(day));
      return {
        heading: `${capital(groupName(group, compare.by))}: ${n} injuries`,
        rows: shown.map(({ day, at_risk, events, returned, lower, upper }): Row => {
          const between = lower === null || upper === null ? "\u2013" : limits({ lower, upper }, "share");
          return [
            byDay(day),
            at_risk,
            events,
            returned === null ? "follow-up ends earlier" : share(returned),
            between + (lower === null ? "" : unitAfter(between, "share")),
          ];
        }),
      };
    }),
    note: "The ends of all bins are in the table of these curves. Every interval takes every injury on its own.",
  });
}

const endsWords: Readonly<Record<AddedTables["ends_told"], string>> = {
  each: "each by itself",
  as_one: "as one",
  as_ends_of_follow_up: "as ends of follow-up",
};

function tablesOfSites({ sites }: AddedTables, { sites: all }: PooledResults): Safe {
  const smallestOf = new Map(all.map(({ site, small_cells }) => [site, small_cells.smallest]));
  return table({
    caption: "The tables of the sites",
    columns: [
      { head: "Site" },
      numbers("Injuries"),
      numbers("Came back"),
      { head: "Bins" },
      { head: "Other ends" },
      { head: "Left out" },
    ],
    groups: [
      {
        heading: null,
        rows: sites.map(
          ({ site, injuries, events, bin_ends, ends_told, left_out }): Row => [
            site,
            injuries,
            events,
            binsInWords(bin_ends),
            endsWords[ends_told],
            left_out.length === 0
              ? "nothing"
              : left_out.map((one) => leftOutOfTableWords(one, smallestOf.get(site)!)).join("; "),
          ],
        ),
      },
    ],
    note: "These counts are exact; the number of people behind them is not in a table.",
  });
}
