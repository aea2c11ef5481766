import type { PersonIds } from "../../schema/person-key.js";
import type { Count, Results } from "../../study/results.js";
import { isTold } from "../../words/counts.js";
import { groupWords } from "../../words/group-phrases.js";
import { personIdWords } from "../../words/person-ids.js";
import { capital, listed, peopleOf } from "../../words/phrases.js";
import { smallCellWords } from "../../words/small-cells.js";
import { codeWords, exclusionWords, fileName, outsideGroups } from "../../words/terms.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";

type Accounting = Results["accounting"];

/** Rows in, rows out: nothing is lost on the way from the files to the comparison. */
export function countedSection({ results }: ReportContext): Section {
  const { accounting } = results;
  // counts that are rounded do not add up
  const isExact = results.small_cells.choice === "written";
  return section(
    "counted",
    html`<p>Every row that was read is either used or set aside with a reason. ${isExact ? "The counts below add up; if they did not, no report would be written." : smallCellWords(results)}</p>
${rowsSetAside(accounting)}${flow(accounting, { trial: results.target_trial, by: results.plan.compare.by, isExact, personIds: results.plan.data.person_ids, ownCalendars: results.plan.data.calendar === "per_person" })}${behind("File by file", html`${rowsRead(accounting, isExact)}${shapes(accounting)}`)}`,
  );
}

function rowsRead({ tables }: Accounting, isExact: boolean): Safe {
  const isOfSites = tables.some(({ site }) => site !== undefined);
  return table({
    caption: "Rows read, used and set aside",
    columns: [
      { head: "Table" },
      { head: "File" },
      ...(isOfSites ? [{ head: "Site" }] : []),
      { head: "Rows read", align: "numbers" },
      { head: "Used", align: "numbers" },
      { head: "Set aside", align: "numbers" },
      ...(isExact ? [{ head: "Check", align: "numbers" } as const] : []),
    ],
    groups: [
      {
        heading: null,
        rows: tables.map(({ table: name, file, site, read, used, set_aside }) => [
          codeWords(name),
          fileName(file),
          ...(isOfSites ? [site ?? null] : []),
          read,
          used,
          set_aside,
          ...(isExact ? [`${read} = ${used} + ${set_aside}`] : []),
        ]),
      },
    ],
  });
}

/** What rows and columns of a file became, where it is not one row an injury in our columns. */
function shapes({ tables }: Accounting): Safe | null {
  const told = tables.flatMap(({ file, used, folded, rows_of_file, not_used }) => [
    ...(folded === undefined
      ? []
      : [
          `${fileName(file)} has one row per visit: of its ${used} rows used, ${folded.injuries} became injuries and ${folded.further_visits} are further visits of these. Rows of which the injury is used and the visit is not: ${folded.visits_not_used}. Blank cells that were read from another row of the same injury or person: ${folded.cells_from_other_rows}.`,
        ]),
    ...(rows_of_file === undefined
      ? []
      : [
          `${fileName(file)} has ${rows_of_file} rows, some of which hold several injuries or treatments; each of these counts as a row above.`,
        ]),
    ...(not_used === undefined || not_used.columns === 0
      ? []
      : [
          `Columns of ${fileName(file)} that are not used: ${not_used.columns}, with ${not_used.filled_cells} filled cells.`,
        ]),
  ]);
  return told.length === 0 ? null : html`<ul>${told.map((line) => html`<li>${line}</li>`)}</ul>\n`;
}

function rowsSetAside({ tables }: Accounting): Safe | null {
  const rows = tables.flatMap(({ table: name, site, reasons }) =>
    reasons.map(
      ({ code, n, rows: numbers }): Row => [
        codeWords(code),
        site === undefined ? codeWords(name) : `${codeWords(name)}, ${site}`,
        n,
        rowNumbers(numbers, n),
      ],
    ),
  );
  if (rows.length === 0) return html`<p>No row was set aside.</p>\n`;
  return table({
    caption: "Why rows were set aside",
    columns: [
      { head: "Reason" },
      { head: "Table" },
      { head: "Rows", align: "numbers" },
      { head: "Rows in the spreadsheet (the header is row 1)" },
    ],
    groups: [{ heading: null, rows }],
  });
}

/** Row numbers as far as they are listed. */
export function rowNumbers(rows: readonly number[], n: Count): string {
  const list = rows.slice(0, 20).join(", ");
  if (rows.length === 0) return "\u2013";
  return isTold(n, (times) => times > Math.min(rows.length, 20)) ? `${list} \u2026 (${n} in all)` : list;
}

function flow(
  { analysis, comparison }: Accounting,
  {
    trial,
    by,
    isExact,
    personIds,
    ownCalendars,
  }: {
    readonly trial: Results["target_trial"];
    readonly by: string;
    readonly isExact: boolean;
    readonly personIds: PersonIds | undefined;
    readonly ownCalendars: boolean;
  },
): Safe {
  const before = hadAnotherBefore(trial);
  const excluded = analysis.excluded.map(({ code, n }) => [exclusionWords[code], n] as const);
  const leftOut = comparison.left_out.map(({ code, n }) => [outsideGroups(code, by), n] as const);
  return html`<ol class="flow">
<li><strong>${analysis.injuries}</strong> ${analysis.injuries === 1 ? "injury was" : "injuries were"} used from the tables${apart(excluded)}</li>
<li><strong>${analysis.analysed}</strong> analysed, in ${peopleOf(analysis.persons)}${apart(leftOut)}</li>
<li><strong>${comparison.compared}</strong> in the groups compared${before}</li>
</ol>
${severalSites(analysis, { personIds, ownCalendars })}${isExact ? html`<p class="note">${identity(analysis.injuries, analysis.analysed, excluded)}; ${identity(comparison.analysed, comparison.compared, leftOut)}.</p>\n` : null}`;
}

/** Person ids that occur at several sites, and as how many people they are counted. */
function severalSites(
  { ids_at_several_sites: several }: Accounting["analysis"],
  { personIds, ownCalendars }: { readonly personIds: PersonIds | undefined; readonly ownCalendars: boolean },
): Safe | null {
  if (several === undefined) return null;
  const { ids, persons, injuries } = several;
  return html`<p>Person ids that occur at more than one site: ${ids}, with ${injuries} injuries. ${capital(personIdWords(personIds))}: they are counted as ${peopleOf(persons)}.${personIds === "shared" && ownCalendars ? " The dates are on a calendar of each person\u2019s own, so that an injury recorded at two sites cannot be distinguished from two injuries." : ""}</p>\n`;
}

/** Those compared in which another treatment came before the one that counts as the first. */
function hadAnotherBefore(trial: Results["target_trial"]): Safe | null {
  const some = (trial?.groups ?? []).filter(({ had_another_before: n }) => n !== 0);
  if (some.length === 0) return null;
  const told = some.map(
    ({ label, n, had_another_before, before }) =>
      html`<li><strong>${had_another_before}</strong> of the ${n} ${groupWords({ by: "first_treatment", label }).among} had another treatment before it: ${listed(before.map(({ code, n: times }) => (times === had_another_before ? codeWords(code) : `${codeWords(code)} in ${times}`)))}</li>`,
  );
  return html`\n<ul class="apart">${told}</ul>\n`;
}

type Reasons = readonly (readonly [words: string, n: Count])[];

const apart = (reasons: Reasons): Safe | null =>
  reasons.length === 0
    ? null
    : html`\n<ul class="apart">${reasons.map(([words, n]) => html`<li><strong>${n}</strong> left out: ${words}</li>`)}</ul>\n`;

const identity = (from: Count, to: Count, reasons: Reasons): string =>
  `${from} = ${[to, ...reasons.map(([, n]) => n)].join(" + ")}`;
