import { labelOf } from "../../schema/labels.js";
import type { CohortCell, CohortRow, Results } from "../../study/results.js";
import { isSome } from "../../words/counts.js";
import { noticeableLine } from "../../words/figures/balance.js";
import { plainNumber, rounded, share } from "../../words/numbers.js";
import { groupName } from "../../words/terms.js";
import { type ReportContext, type Section, section } from "../context.js";
import { type Content, html, type Safe } from "../escape.js";
import { behind } from "../layout/blocks.js";
import { figuresIn } from "../layout/figure.js";
import { type Column, type Row, type RowGroup, table } from "../layout/table.js";

/** The cohort by compared group, with what is missing and the standardised differences. */
export function cohortSection(context: ReportContext): Section {
  const { cohort } = context.results;
  return section(
    "cohort",
    html`${describedGroups({
      ...cohort,
      caption: `Characteristics of the injuries compared, by ${labelOf(cohort.by)}`,
      note: `${describedNote} ${noticeableLine}`,
    })}${behind("The differences at the start as a figure", html`${figuresIn(context, "cohort")}`)}`,
  );
}

/** How to read a table of groups side by side. */
export const describedNote =
  "Categories: count, and share of the injuries with a value. Measurements: median (lower to upper quartile), beneath it mean \u00b1 standard deviation. Standardised difference: difference in standard deviations, given once for each variable.";

/** Groups of injuries side by side. */
export type DescribedGroups = Pick<Results["cohort"], "by" | "groups" | "reference" | "overall" | "rows"> & {
  readonly caption: string;
  readonly note: string;
};

/** A table of groups side by side, variable by variable, with the standardised difference of each from the reference. */
export function describedGroups({ caption, note, ...described }: DescribedGroups): Safe {
  const { by, groups, reference, overall } = described;
  const others = groups.filter(({ label }) => label !== reference);
  const columns: Column[] = [
    { head: "" },
    { head: `All (${overall})`, align: "numbers" },
    ...groups.map(({ label, n }) => ({ head: `${groupName(label, by)} (${n})`, align: "numbers" as const })),
    ...others.map(({ label }) => ({
      head: `Standardised difference, ${groupName(label, by)} from ${groupName(reference, by)}`,
      align: "numbers" as const,
    })),
  ];
  return table({ caption, columns, groups: variables(described), note });
}

/** Rows of one variable belong together under its name. */
function variables({
  groups,
  reference,
  rows: all,
}: Omit<DescribedGroups, "by" | "caption" | "note">): RowGroup[] {
  const names = [...new Set(all.map(({ variable }) => variable))];
  const isOther = groups.map(({ label }) => label !== reference);
  return names.map((name) => {
    const rows = all.filter(({ variable }) => variable === name);
    const first = rows[0]!;
    const cells = (row: CohortRow) => [row.overall, ...row.groups];
    const isMissing = cells(first).some(({ missing }) => isSome(missing));
    const blanks = isOther.filter(Boolean).map(() => null);
    const missing: Row = ["not recorded", ...cells(first).map((cell) => cell.missing), ...blanks];
    return {
      heading: withUnit(labelOf(name), first.unit),
      rows: [
        ...rows.map(
          (row, i): Row => [
            row.term === null ? "median, mean" : groupName(row.term, name),
            ...cells(row).map(cellWords),
            ...(i === 0
              ? row.standardised_differences
                  .filter((_, group) => isOther[group])
                  .map((value) => (value === null ? "\u2013" : rounded(value, { decimals: 2 })))
              : blanks),
          ],
        ),
        ...(isMissing ? [missing] : []),
      ],
    };
  });
}

/** The unit after the name, unless the name speaks of it. */
function withUnit(name: string, unit: string | null): string {
  const words = unit === null ? "" : (unitWords[unit] ?? unit);
  return words === "" || name.includes(words) ? name : `${name}, ${words}`;
}

const unitWords: Readonly<Record<string, string>> = { a: "years", d: "days" };

function cellWords(cell: CohortCell): Content {
  if (cell.count !== null)
    return cell.share === null ? String(cell.count) : `${cell.count} (${share(cell.share)})`;
  const number = (value: number | null) => (value === null ? "\u2013" : plainNumber(value, 1));
  if (cell.median === null && cell.mean === null) return "\u2013";
  const middle = `${number(cell.median)} (${number(cell.lower_quartile)} to ${number(cell.upper_quartile)})`;
  return html`${middle}<br>${number(cell.mean)}\u00a0\u00b1\u00a0${number(cell.standard_deviation)}`;
}
