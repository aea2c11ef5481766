import { counted } from "../../schema/counted.js";
import { labelOf } from "../../schema/labels.js";
import type { Count, Results } from "../../study/results.js";
import { isSome, rankOf, sumOf } from "../../words/counts.js";
import { noneMissing } from "../../words/figures/missing-values.js";
import { share } from "../../words/numbers.js";
import { listed } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { groupName } from "../../words/terms.js";
import { days } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, heading } from "../layout/blocks.js";
import { figuresOfKind } from "../layout/figure.js";
import { type Column, type Row, table } from "../layout/table.js";
import { afterLoss } from "./after-loss.js";
import { describedGroups, describedNote } from "./cohort.js";

type Missing = Results["missing"];
type Lost = Results["lost"];

/** What is not recorded, which fields together, who was lost and how the lost differ from those who stayed. */
export function missingSection(context: ReportContext): Section {
  const { missing, lost } = context.results;
  return section(
    "missing",
    html`${heading("Missing values")}<p>${gapsInWords(missing)}</p>
${behind("Field by field and group by group", html`${figuresOfKind(context, { family: "missing", groups: null })}${gapTables(missing)}${patternTable(missing)}`)}${heading("Loss to follow-up")}<p>${lossInWords(lost)}</p>
${behind("Group by group, and those lost beside those who stayed", html`${lossTable(lost)}${comparedTables(lost)}`)}${afterLoss(context)}`,
  );
}

function gapsInWords({ n, fields, complete, never_filled }: Missing): string {
  const gaps = fields.filter(({ missing }) => isSome(missing));
  const often = [...gaps].sort((one, other) => rankOf(other.missing) - rankOf(one.missing)).slice(0, 3);
  const inStudy = gaps.filter(({ in_the_study }) => in_the_study);
  const named = often.map(
    ({ field, missing, share: part }) => `${labelOf(field)} (${missing}${ofAll(part)})`,
  );
  return [
    `Of ${counted(n, "analysed injury", "analysed injuries")}, ${complete} ${complete === 1 ? "has" : "have"} a value in every one of ${fields.length} fields.`,
    gaps.length === 0 ? noneMissing : `Most often missing: ${listed(named)}.`,
    inStudy.length === 0
      ? "No value of a field that the study compares by or adjusts for is missing."
      : `Of the fields that the study compares by or adjusts for, ${listed(inStudy.map(({ field, missing }) => `${labelOf(field)} is missing in ${missing}`))}; such injuries are left out of the adjusted comparison.`,
    never_filled.length === 0
      ? ""
      : `Not collected at all, and not counted here: ${listed(never_filled.map(labelOf))}.`,
    "A return that was not reached yet is not a missing value: such an injury counts up to its last contact.",
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

const ofAll = (part: number | null): string => (part === null ? "" : `, ${share(part)}`);

/** One table a grouping, the first with how the gaps are told. */
function gapTables(missing: Missing): Safe[] {
  const gaps = missing.fields
    .flatMap(({ missing: n }, i) => (isSome(n) ? [i] : []))
    .sort(
      (one, other) =>
        rankOf(missing.fields[other]!.missing) - rankOf(missing.fields[one]!.missing) || one - other,
    );
  if (gaps.length === 0) return [];
  return missing.groupings.map(({ by, groups }) =>
    table({
      caption: `Injuries without a value, by ${labelOf(by)}`,
      columns: [
        { head: "Field" },
        { head: `All (${missing.n})`, align: "numbers" },
        ...groups.map(
          ({ label, n }): Column => ({ head: `${groupName(label, by)} (${n})`, align: "numbers" }),
        ),
        { head: "Recorded as unknown (all)", align: "numbers" },
      ],
      groups: [
        {
          heading: null,
          rows: gaps.map((place): Row => {
            const { field, missing: n, share: part, unknown } = missing.fields[place]!;
            return [
              labelOf(field),
              withShare(n, part),
              ...groups.map((group) => withShare(group.missing[place]!.n, group.missing[place]!.share)),
              unknown,
            ];
          }),
        },
      ],
      note: "Count, and share of the group. A cell that could not be read counts as blank. Values that are missing more often in one group than in another can make the groups look different, or similar, when they are not.",
    }),
  );
}

const withShare = (n: Count, part: number | null): string =>
  n === 0 || part === null ? String(n) : `${n} (${share(part)})`;

/** Patterns shown; the file of the table has twenty. */
const patternsShown = 8;

function patternTable({ n, patterns, other_patterns }: Missing): Safe | null {
  if (patterns.every(({ fields }) => fields.length === 0)) return null;
  const shown = patterns.slice(0, patternsShown);
  const others = patterns.slice(patternsShown);
  const left = {
    patterns: others.length + other_patterns.patterns,
    n: sumOf([...others, other_patterns].map((pattern) => pattern.n)),
  };
  const rows: Row[] = shown.map(({ fields, n: times }) => [
    fields.length === 0 ? "none" : listed(fields.map(labelOf)),
    times,
  ]);
  const rest: Row[] =
    left.patterns === 0 ? [] : [[counted(left.patterns, "other pattern", "other patterns"), left.n]];
  return table({
    caption: "Values missing together",
    columns: [{ head: "Missing" }, { head: "Injuries", align: "numbers" }],
    groups: [{ heading: null, rows: [...rows, ...rest, ["All", n]] }],
  });
}

function lossInWords({ n, lost, share: part, horizon_days, closing_day_known, completeness }: Lost): string {
  const observed =
    completeness === null ? "" : ` In all, ${share(completeness)} of the possible time was observed.`;
  const closing = closing_day_known
    ? "the data were closed"
    : "the end of the horizon; the study file names no day on which the data were closed (closed_on), so that whoever is still followed counts as lost";
  const until = closing_day_known
    ? `${days(horizon_days)} and before ${closing}`
    : `${days(horizon_days)}, ${closing}`;
  const remarks = [
    ...(typeof lost === "number" ? [] : ["how many is left out"]),
    ...(part === null ? [] : [share(part)]),
  ];
  return `${typeof lost === "number" ? lost : "Some"} of ${counted(n, "injury", "injuries")}${remarks.length === 0 ? "" : ` (${remarks.join("; ")})`} ${lost === 1 ? "was" : "were"} last observed before ${until}, without the return and without another end.${observed} Estimates assume that those lost are like those who stayed; if people stop coming because they have returned, or because they have not, the curves are biased.`;
}

function lossTable({ groupings, n, lost, share: part, completeness }: Lost): Safe {
  const row = (label: string, one: Pick<Lost, "n" | "lost" | "share" | "completeness">): Row => [
    label,
    one.n,
    withShare(one.lost, one.share),
    one.completeness === null ? reasonWords(null) : share(one.completeness),
  ];
  return table({
    caption: "Loss to follow-up before the horizon, and completeness of follow-up",
    columns: [
      { head: "" },
      { head: "Injuries", align: "numbers" },
      { head: "Lost", align: "numbers" },
      { head: "Completeness", align: "numbers" },
    ],
    groups: [
      { heading: null, rows: [row("All", { n, lost, share: part, completeness })] },
      ...groupings.map(({ by, groups }) => ({
        heading: `By ${labelOf(by)}`,
        rows: groups.map((group) => row(groupName(group.label, by), group)),
      })),
    ],
    note: "Completeness: observed over possible time at risk up to the horizon.",
  });
}

type ComparedLost = Lost["compared"][number];

/** Those lost beside those who stayed, and in one sentence where they are too few to be described. */
function comparedTables({ compared }: Lost): Safe {
  const tooFew = compared.filter(({ reason }) => reason !== null);
  const named = tooFew.map((one) => `${whomOf(one)} (${one.lost} lost, ${one.stayed} stayed)`);
  const why = listed([...new Set(tooFew.map(({ reason }) => reasonWords(reason)))]);
  return html`${compared.filter(({ reason }) => reason === null).map(comparedTable)}${
    tooFew.length === 0
      ? null
      : html`<p class="note">Those lost and those who stayed are not compared for ${listed(named)}: ${why}, and a table of so few would describe single people.</p>
`
  }`;
}

const whomOf = ({ by, group }: Pick<ComparedLost, "by" | "group">): string =>
  by === null ? "all analysed injuries" : `${labelOf(by)} ${groupName(group, by)}`;

function comparedTable({ lost, stayed, rows, ...one }: ComparedLost): Safe {
  return describedGroups({
    caption: `Lost to follow-up compared with those who stayed, ${whomOf(one)}`,
    groups: [
      { label: "lost", n: lost },
      { label: "stayed", n: stayed },
    ],
    by: "follow-up",
    reference: "stayed",
    overall: sumOf([lost, stayed]),
    rows,
    note: `A description, not a test: it cannot tell why people were lost. ${describedNote}`,
  });
}
