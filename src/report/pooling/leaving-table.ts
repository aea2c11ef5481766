import type { SiteSummary } from "../../pooling/summary/index.js";
import { counted } from "../../schema/counted.js";
import { capital } from "../../words/phrases.js";
import { leftOutOfTableWords, tableOfSiteWords } from "../../words/pooling/risk-sets.js";
import { competingHead, groupName } from "../../words/terms.js";
import { html, type Safe } from "../escape.js";
import { bullets, caution } from "../layout/blocks.js";
import type { PagePart } from "../layout/shell.js";
import { type Column, type Row, table } from "../layout/table.js";

type Made = NonNullable<SiteSummary["risk_sets"]>;
type Table = Extract<Made, { leaves: true }>["table"];
type Cell = Table["cells"][number];
type End = keyof Cell["ended"];

/** The risk-set table that leaves, every count of it, or why none does; nothing where the site was not asked for one. */
export function leavingTable({ risk_sets, agreed }: SiteSummary): readonly PagePart[] {
  if (risk_sets === undefined) return [];
  const said = html`<p>${tableOfSiteWords(risk_sets).join(" ")}</p>\n`;
  const body = risk_sets.leaves
    ? html`${said}<p>It tells how many injuries of a group came under observation, came back, came to another end or were followed no longer in each bin of time. From it the coordinator computes curves, a test and a ratio of rates over all sites; nobody can learn from it who an injury is of, or which injuries are of one person.</p>
${leftOut(risk_sets.table)}${countsTable(risk_sets.table, agreed.file.compare.by)}${caution()}`
    : said;
  return [{ id: "table", title: "The risk-set table", body }];
}

const leftOut = ({ left_out, smallest_cell }: Table): Safe =>
  left_out.length === 0
    ? html`<p>Nothing was left out of it.</p>\n`
    : html`<p>Left out of it:</p>\n${bullets(left_out.map((one) => `${capital(leftOutOfTableWords(one, smallest_cell))}.`))}`;

const heads = { milestone: "Came back", another_end: "Came to another end" } as const;

const headOf = (end: End): string =>
  end === "milestone" || end === "another_end" ? heads[end] : capital(competingHead(end));

const numbers = (head: string): Column => ({ head, align: "numbers" });

/** Every count of the table. */
function countsTable({ cells, bin_ends }: Table, by: string): Safe {
  const ends = [...new Set(cells.flatMap(({ ended }) => Object.keys(ended) as End[]))];
  return table({
    caption: "Injuries by bin of time",
    columns: [
      { head: "Days" },
      numbers("At risk from then on"),
      ...ends.map((end) => numbers(headOf(end))),
      numbers("Follow-up ended"),
    ],
    groups: cells.map((cell) => ({
      heading: `${capital(groupName(cell.group, by))}${cell.stratum === null ? "" : `, ${cell.stratum}`}: ${counted(cell.injuries, "injury", "injuries")}`,
      rows: cell.day.map((end, i): Row => {
        const before = bin_ends[bin_ends.indexOf(end) - 1];
        return [
          end < 0 ? "from the start" : `${before === undefined ? 0 : before + 1} to ${end}`,
          cell.entered[i]!,
          ...ends.map((one) => cell.ended[one]?.[i] ?? 0),
          cell.censored[i]!,
        ];
      }),
    })),
    note: "Bins in which nothing happened are not listed. Injuries at risk from then on came under observation after the last day of the bin.",
  });
}
