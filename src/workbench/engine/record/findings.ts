import { type ReadOptions, readCohort } from "../../../ingest/index.js";
import type { CohortSource } from "../../../ingest/text/source-file.js";
import { type DataQuery, labelOf, type ReadCohort, sayQuery } from "../../../schema/index.js";
import { type LinkedTableName, linkedTableNames } from "../../../schema/table-names.js";
import type { Plan } from "../../../study/plan.js";
import { type Draft, partsKept, withDraft } from "./draft.js";
import { type ClinicRecord, cell, emptyRecord, type RecordRow, tablesOfInjury } from "./record.js";
import { planOfRecord } from "./record-file.js";
import type { DraftFindings, Finding } from "./record-tasks.js";

/** As the study of a record reads its file. */
function optionsOf({ data, distance }: Plan): ReadOptions {
  return {
    closedOn: data.closed_on ?? null,
    thresholdMm: distance.threshold_mm,
    dateOrder: data.date_order,
    personIds: data.person_ids,
  };
}

/** What ingest says about a record, each query with the key of its row. */
export interface CheckedRecord {
  readonly read: ReadCohort;
  readonly queries: readonly {
    readonly table: LinkedTableName | null;
    readonly key: number | null;
    readonly query: DataQuery;
  }[];
  /** Keys of the rows that are set aside. */
  readonly setAside: ReadonlySet<number>;
}

const header = 1;

/** Reads a record as its file would be read: the rows go the whole way of ingest, so that no check is written twice. */
export function checkedRecord({ rows }: Pick<ClinicRecord, "rows">): CheckedRecord {
  const filled = linkedTableNames.filter((table) => table === "injuries" || rows[table].length > 0);
  const read = readCohort(
    filled.map((table) => sourceOf(table, rows[table])),
    optionsOf(planOfRecord(emptyRecord, "record.xlsx")),
  );
  const rowAt = (query: DataQuery) => {
    const table = linkedTableNames.find((name) => name === query.file) ?? null;
    const row = table === null || query.row === null ? undefined : rows[table][query.row - header - 1];
    return { table, key: row?.key ?? null, query };
  };
  const setAside = read.accounts.flatMap((account) =>
    account.setAside.map(({ row }) => rows[account.table as LinkedTableName][row - header - 1]!.key),
  );
  return { read, queries: read.queries.map(rowAt), setAside: new Set(setAside) };
}

const sourceOf = (table: LinkedTableName, rows: readonly RecordRow[]): CohortSource => ({
  table,
  file: table,
  read: {
    read: rows.length,
    rows: rows.map(({ cells }, i) => ({ file: table, row: i + header + 1, cells: { ...cells } })),
    setAside: [],
    queries: [],
  },
});

/**
 * What ingest would say about the rows of a draft. The rows of the same person are read with them, and those that have the
 * same name: what lies further away has no say about a row that is being written.
 */
export function draftFindings(record: ClinicRecord, draft: Draft): DraftFindings {
  const near = nearTo(withDraft(record, draft), draft);
  const { queries, setAside } = checkedRecord(near);
  const own = new Set(partsKept(draft).map(({ key }) => key));
  const rows = Object.fromEntries(
    [...own].map((key) => [
      key,
      {
        isSetAside: setAside.has(key),
        findings: queries.filter((one) => one.key === key).map(({ query }) => findingOf(query)),
      },
    ]),
  );
  const others = queries
    .filter(({ key }) => key === null || !own.has(key))
    .map(({ table, query }) => ({ ...findingOf(query), where: table === null ? "" : labelOf(table) }));
  return { rows, others };
}

function nearTo({ rows }: ClinicRecord, draft: Draft): Pick<ClinicRecord, "rows"> {
  const keys = new Set(draft.parts.map(({ key }) => key));
  const own = rows.injuries.filter(
    ({ key, cells }) => keys.has(key) || key === draft.injury || isNamed(cells),
  );
  function isNamed(cells: RecordRow["cells"]): boolean {
    return draft.parts.some(
      (part) =>
        part.table !== "injuries" &&
        draft.injury === null &&
        cell(part.cells, "injury_id") === cell(cells, "injury_id"),
    );
  }
  const persons = new Set(own.map(({ cells }) => cell(cells, "person_id")));
  const names = new Set(own.map(({ cells }) => cell(cells, "injury_id")));
  const injuries = rows.injuries.filter(
    (row) =>
      own.includes(row) ||
      persons.has(cell(row.cells, "person_id")) ||
      names.has(cell(row.cells, "injury_id")),
  );
  const near = new Set(injuries.map(({ cells }) => cell(cells, "injury_id")));
  const linked = tablesOfInjury.map((table) => [
    table,
    rows[table].filter(({ key, cells }) => keys.has(key) || near.has(cell(cells, "injury_id"))),
  ]);
  return { rows: { ...rows, injuries, ...Object.fromEntries(linked) } };
}

const sentence = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

export function findingOf(query: DataQuery): Finding {
  const { found, expected, correction, consequence } = sayQuery(query);
  return {
    severity: query.severity,
    column: query.column,
    what: sentence(`${found} ${expected}.`),
    correction,
    consequence,
    isBlank: query.code === "value-missing",
  };
}
