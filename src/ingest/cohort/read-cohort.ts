import type { AnswerRow } from "../../schema/answers.js";
import type { DateOrder } from "../../schema/cells/read-date.js";
import type { ReadCohort } from "../../schema/cohort-tables.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { IsoDate } from "../../schema/dates.js";
import type { PersonIds } from "../../schema/person-key.js";
import type { Keep } from "../../schema/query-list.js";
import { StopError } from "../../schema/stop-error.js";
import type { TableName } from "../../schema/table-names.js";
import { type Table, tables } from "../../schema/tables.js";
import { type QueriesList, queriesList } from "../answers/queries-csv.js";
import { type AnswersFile, noAnswers, readAnswers } from "../answers/read-answers.js";
import type { NamedQuery } from "../answers/register.js";
import { settle } from "../answers/settle.js";
import type { LinkContext } from "../rules/link-rule.js";
import { asWrittenIn } from "../table/file-words.js";
import { readTable } from "../table/read-table.js";
import type { FileWords, ReadFile } from "../text/rows-of-file.js";
import type { CohortSource } from "../text/source-file.js";
import { questionsAboutFiles } from "./check-files.js";
import { type IngestedFiles, ingestFiles } from "./ingest-files.js";

export interface ReadOptions {
  /** The day on which the data were closed: later dates set a row aside. Null when not stated. */
  readonly closedOn: IsoDate | null;
  /** Distance above which the study calls a rupture complete, mm. */
  readonly thresholdMm: number;
  /** Which comes first in dates that do not put the year first; by default only YYYY-MM-DD is taken. */
  readonly dateOrder?: DateOrder;
  /** Whether all dates lie on one calendar (the default), or each person has one of their own. */
  readonly calendar?: LinkContext["calendar"];
  /** How far a person id names one person, where it is stated; within its site where it is not. */
  readonly personIds?: PersonIds | undefined;
  /** The file in which the site has answered earlier queries. */
  readonly answers?: AnswersFile;
}

/**
 * Files to the typed tables of a cohort, with the account of every row and every query.
 *
 * Each file is read, its cells typed, each row checked by itself, then the tables against one another. What is
 * wrong beyond doubt sets a row aside, and with an injury the rows that name it; what is odd is asked and used.
 * Rows read = rows used + rows set aside, for every file, or the run stops.
 *
 * The site's answers take effect on the way in: a changed cell is read and checked like any other, a row that is to be
 * left out is set aside with that reason, a query about what stands is not raised again.
 *
 * @param sources the linked tables (injuries needed), or one single sheet
 * @throws StopError with every reason at once, when a file cannot be read at all
 */
export function readCohort(sources: readonly CohortSource[], options: ReadOptions): ReadCohort {
  const { answers, ...reading } = readingOf(options);
  const files = readFiles(sources, answers === null ? "some" : "every");
  if (answers === null) {
    const read = ingestFiles(files, { ...reading, keep: "some" });
    return { ...inWords(read, asWrittenIn(files)), answers: null };
  }
  const { pass, queries, account, asWritten } = settle(files, {
    answers,
    read: (amended) => ingestFiles(amended, { ...reading, keep: "every" }),
  });
  return { ...inWords({ ...pass, queries }, asWritten), answers: account };
}

/** Says the queries about files that were translated into our columns in the words of these files. */
const inWords = (
  { tables: used, accounts, queries }: IngestedFiles,
  asWritten: FileWords["asWritten"],
): IngestedFiles => ({
  tables: used,
  accounts: accounts.map((account) => ({
    ...account,
    setAside: account.setAside.map(({ row, query }) => ({ row, query: asWritten(query) })),
  })),
  queries: queries.map(asWritten),
});

/** A cohort with the list of its queries for the site to answer. */
export interface CohortForSite extends ReadCohort {
  /** Every query that is still open, with its id and person, without an upper limit. */
  readonly open: readonly NamedQuery[];
  /** Every query, answered or not, as CSV, with columns for the answers; it holds values of the tables. */
  readonly csv: string;
  /** The same with the lines of an earlier list that is to give way to this one. */
  readonly listWith: (earlier: readonly AnswerRow[]) => QueriesList;
}

/** The same as `readCohort`, with every query by its id. It takes more time and memory. */
export function readCohortForSite(sources: readonly CohortSource[], options: ReadOptions): CohortForSite {
  const { answers, ...reading } = readingOf(options);
  const files = readFiles(sources, "every");
  const { pass, open, queries, account, raised, asWritten } = settle(files, {
    answers: answers ?? noAnswers,
    read: (amended) => ingestFiles(amended, { ...reading, keep: "every" }),
  });
  return {
    ...inWords({ ...pass, queries }, asWritten),
    answers: answers === null ? null : account,
    open: open.map((one) => ({ ...one, query: asWritten(one.query) })),
    csv: queriesList(raised, { answers }).csv,
    listWith: (earlier) => queriesList(raised, { answers, earlier }),
  };
}

function readingOf({
  closedOn,
  thresholdMm,
  dateOrder = "year-first",
  calendar = "common",
  personIds,
  answers,
}: ReadOptions) {
  return {
    context: { closedOn, dateOrder, personIds },
    link: { thresholdMm, calendar, personIds },
    answers: answers === undefined ? null : readAnswers(answers, { dateOrder }),
  };
}

function readFiles(sources: readonly CohortSource[], keep: Keep): ReadonlyMap<TableName, ReadFile> {
  const stops: DataQuery[] = [...questionsAboutFiles(sources)];
  const files = new Map<TableName, ReadFile>();
  for (const source of sources) {
    const read = "read" in source ? source.read : readTable(source, tables[source.table] as Table, { keep });
    stops.push(...read.queries.filter(({ severity }) => severity === "stop"));
    files.set(source.table, { file: source.file, read, isReadOnce: keep === "some" && !("read" in source) });
  }
  if (stops.length > 0) throw new StopError(stops);
  return files;
}
