import { isSome } from "../../charts/counts.js";
import { labelOf } from "../../schema/labels.js";
import type { CohortCell, CohortRow, Results } from "../../study/results.js";
import { type ReportContext, type Section, section } from "../context.js";
import { type Content, html, type Safe } from "../escape.js";
import { plainNumber, rounded, share } from "../format.js";
import { figuresOf } from "../layout/figure.js";
import { type Column, type Row, type RowGroup, table } from "../layout/table.js";
import { groupName } from "../words/terms.js";

/** The cohort by compared group, with what is missing and how far groups lie apart. */
export function cohortSection(context: ReportContext): Section {
  const { cohort } = context.results;
  return section(
    "cohort",
    html`${describedGroups({
      ...cohort,
      caption: `The injuries compared by ${labelOf(cohort.by)}`,
      note: "Terms: count and share of those recorded. Numbers: median, quartiles in brackets, beneath them mean and standard deviation. Apart: standardised difference, in standard deviations, once a variable; beyond about 0.1 in either direction groups are often called unlike (common practice, no source).",
    })}${figuresOf(context, ["balance"])}`,
  );
}

/** Groups of injuries side by side. */
export type DescribedGroups = Pick<Results["cohort"], "by" | "groups" | "reference" | "overall" | "rows"> & {
  readonly caption: string;
  readonly note: string;
};

/** A table of groups side by side, variable by variable, with how far each lies from the reference. */
export function describedGroups({ caption, note, ...described }: DescribedGroups): Safe {
  const { by, groups, reference, overall } = described;
  const others = groups.filter(({ label }) => label !== reference);
  const columns: Column[] = [
    { head: "" },
    { head: `All (${overall})`, align: "numbers" },
    ...groups.map(({ label, n }) => ({ head: `${groupName(label, by)} (${n})`, align: "numbers" as const })),
    ...others.map(({ label }) => ({
      head: `Apart: ${groupName(label, by)} from ${groupName(reference, by)}`,
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
  const apartFrom = groups.map(({ label }) => label !== reference);
  return names.map((name) => {
    const rows = all.filter(({ variable }) => variable === name);
    const first = rows[0]!;
    const cells = (row: CohortRow) => [row.overall, ...row.groups];
    const isMissing = cells(first).some(({ missing }) => isSome(missing));
    const blanks = apartFrom.filter(Boolean).map(() => null);
    const missing: Row = ["not recorded", ...cells(first).map((cell) => cell.missing), ...blanks];
    return {
      heading: withUnit(labelOf(name), first.unit),
      rows: [
        ...rows.map(
          (row, index): Row => [
            row.term === null ? "value" : groupName(row.term, name),
            ...cells(row).map(cellWords),
            ...(index === 0
              ? row.standardised_differences
                  .filter((_, group) => apartFrom[group])
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
