import { resolve } from "node:path";
import type { NamedQuery, QueriesList } from "../../ingest/index.js";
import {
  type AnswerAccount,
  type ColumnNotUsed,
  counted,
  type DataQuery,
  type FoldedRows,
  groupQueries,
  groupText,
  oneLine,
  queryText,
  type ReadCohort,
} from "../../schema/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { refuseSeveralSites } from "../one-site.js";
import { placeForList, writeList } from "../queries-list.js";
import { openStudy, type StudyInput } from "../study-input.js";
import type { Terminal } from "../terminal.js";

export interface CheckOptions {
  /** File for the list of queries. */
  readonly queries?: string;
  /** Whether a list that exists may give way to one that holds its answers. */
  readonly replace?: boolean;
  readonly by?: "rule" | "person";
}

/** Reads every table of a study and lists the queries; changes nothing. */
export async function check(study: string, options: CheckOptions, terminal: Terminal): Promise<ExitCode> {
  const { by = "rule", queries: list } = options;
  const isForSite = by === "person" || list !== undefined;
  const mayReplace = options.replace === true;
  const place = list === undefined ? null : await placeForList(list, { study, mayReplace });
  const input = await openStudy(study, terminal, { purpose: isForSite ? "for the site" : "for a report" });
  const { read, forSite } = input;
  if (isForSite)
    refuseSeveralSites(
      input.plan,
      "Queries are answered by the site that holds the rows: run check with the study file of each site.",
    );
  terminal.say(
    [
      ...accountLines(read),
      "",
      ...(by === "person" && forSite !== null ? byPerson(forSite.open, read) : byRule(read.queries)),
      read.queries.length === 0 ? "There are no queries." : "",
    ].join("\n"),
  );
  if (place !== null && forSite !== null) {
    const written = await writeList(place, { forSite, input, mayReplace });
    terminal.say(
      written === null
        ? `${oneLine(place.path)} is left as it is.`
        : listLines(written, { path: place.path, open: forSite.open.length, input }).join("\n"),
    );
  }
  const setAside = read.accounts.reduce((sum, account) => sum + account.setAside.length, 0);
  return setAside > 0 ? exitCodes.found : exitCodes.done;
}

/** What was written for the site, and what to do with it. */
function listLines(
  { carried, noLongerRaised }: QueriesList,
  { path, open, input }: { readonly path: string; readonly open: number; readonly input: StudyInput },
): string[] {
  const isNamed = input.answersPath !== null && resolve(path) === input.answersPath;
  return [
    `The queries for the site, one per row, sorted by person and rule${carried === 0 ? "" : ", with the answers given so far"}: ${path}`,
    ...(carried === 0
      ? []
      : [
          `  ${counted(carried, "answered line was", "answered lines were")} carried over.${noLongerRaised === 0 ? "" : ` Of these, ${counted(noLongerRaised, "line belongs", "lines belong")} to queries that are no longer raised, because the row has changed or is gone: kept at the end, with the state no-longer-raised.`}`,
        ]),
    `  The file contains values from the tables: keep it at the site. ${counted(open, "query is", "queries are")} open.`,
    ...(isNamed
      ? ['  Fill in the column "answer" (stands, change or leave-out) and save the file as CSV.']
      : [
          '  Fill in the column "answer" (stands, change or leave-out), save the file as CSV beside the tables, and name it in the study file:',
          `    data: { answers: ${path.split(/[\\/]/).at(-1)} }`,
        ]),
  ];
}

function accountLines({ accounts, answers }: ReadCohort): string[] {
  const ofTables = accounts.flatMap(
    ({ file, site, table, read, used, setAside, folded, unfoldedFrom, columnsNotUsed = [] }) => [
      ...(unfoldedFrom === undefined
        ? []
        : [
            `${oneLine(file)} (${table}): ${counted(unfoldedFrom, "row holds", "rows hold")} ${table === "treatments" ? counted(read, "treatment", "treatments") : counted(read, "injury", "injuries")}, counted as rows below; row 5.2 is the second of row 5`,
          ]),
      `${site === undefined ? "" : `${site}: `}${oneLine(file)} (${table}): ${counted(read, "row", "rows")} read = ${used} used + ${setAside.length} set aside`,
      ...(folded === undefined ? [] : foldedLines(folded)),
      ...columnLines(columnsNotUsed),
    ],
  );
  return answers === null || answers === undefined ? ofTables : [...ofTables, ...answerLines(answers)];
}

/** What became of rows that are visits, and which cells stand in another row than they are used for. */
function foldedLines({ injuries, further, visitsNotUsed, carried }: FoldedRows): string[] {
  const cells = carried.map(({ column, cells: n }) => `${column} ${n}`).join(", ");
  return [
    `  used: ${injuries} became injuries, ${further} ${further === 1 ? "is a further visit" : "are further visits"} of these`,
    ...(visitsNotUsed === 0
      ? []
      : [`  of ${counted(visitsNotUsed, "used row", "used rows")} the injury is read and the visit is not`]),
    ...(cells === "" ? [] : [`  blank cells read from another row of the same injury or person: ${cells}`]),
  ];
}

/** Filled cells that nobody reads, by column. */
function columnLines(columns: readonly ColumnNotUsed[]): string[] {
  const filled = columns.filter(({ filled: n }) => n > 0);
  if (filled.length === 0) return [];
  const told = filled.map(({ column, filled: n }) => `${oneLine(column)} ${n}`).join(", ");
  return [`  columns not used, with their filled cells: ${told}`];
}

function answerLines({ file, read, blank, used, repeated, notUsed, ...done }: AnswerAccount): string[] {
  const sum = used.stands + used.change + used["leave-out"];
  const parts = [
    `${sum} used`,
    `${blank} not answered yet`,
    ...(repeated > 0 ? [`${repeated} repeated`] : []),
    ...Object.entries(notUsed).flatMap(([reason, n]) => (n > 0 ? [`${n} ${reason}`] : [])),
  ];
  return [
    `${oneLine(file)} (answers): ${counted(read, "line", "lines")} read = ${parts.join(" + ")}`,
    `  used: ${used.stands} stands, ${used.change} change, ${used["leave-out"]} leave-out; cells changed: ${done.cellsChanged}, rows left out: ${done.rowsLeftOut}. The tables themselves are not changed.`,
  ];
}

const byRule = (queries: readonly DataQuery[]): string[] => groupQueries(queries).map(groupText);

/** Queries under the person they concern, those about whole files first and those about the answers last. */
function byPerson(open: readonly NamedQuery[], { queries, answers }: ReadCohort): string[] {
  const persons = new Map<string, NamedQuery[]>();
  for (const one of open) {
    const person = one.person ?? "";
    const own = persons.get(person);
    if (own === undefined) persons.set(person, [one]);
    else own.push(one);
  }
  const names = [...persons.keys()].sort();
  const aboutAnswers = queries.filter(({ file }) => file === answers?.file);
  return [
    ...names.flatMap((name) => [
      name === "" ? "Queries about whole files, and about rows without a person" : `Person ${oneLine(name)}`,
      ...(persons.get(name) ?? []).map(({ id, query }) => indented(`${queryText(query)}\n  ${id}`)),
      "",
    ]),
    ...(aboutAnswers.length > 0 ? ["Queries about the answers", ...byRule(aboutAnswers).map(indented)] : []),
  ];
}

const indented = (text: string): string => `  ${text.replaceAll("\n", "\n  ")}`;
