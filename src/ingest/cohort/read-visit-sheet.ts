import type { FoldedRows } from "../../schema/accounting.js";
import { boundedOf } from "../../schema/cells/bound-text.js";
import { tidy } from "../../schema/cells/reading.js";
import type { CellRow, TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { blankRow } from "../../schema/field.js";
import { type ImagingRow, imagingRow } from "../../schema/imaging.js";
import type { QueryList } from "../../schema/query-list.js";
import { rowRules } from "../../schema/rules/row-rules.js";
import { tables } from "../../schema/tables.js";
import { isOfVisit, type VisitOfSheetRow, visitOfSheet, visitSheet } from "../../schema/visit-sheet.js";
import type { VisitRow } from "../../schema/visits.js";
import { repeatedRows } from "../rules/repeated-rows.js";
import { type InjuriesByName, injuriesByName, notBeforeInjury } from "../rules/set-aside.js";
import { checkRows, type ReadingContext } from "../table/check-rows.js";
import { closeLedger, openLedger, rowsThatPass } from "../table/ledger.js";
import type { ReadFile, RowsOfFile } from "../text/rows-of-file.js";
import { type FoldedInjury, foldVisits } from "./fold-visits.js";
import type { ReadTables } from "./read-linked-tables.js";
import { unfoldUsed } from "./read-single-sheet.js";
import type { InjuryOfSheet } from "./unfold-injury.js";

interface Reading {
  readonly context: ReadingContext;
  readonly queries: QueryList;
}

/**
 * A sheet with one row a visit: the rows of each injury are folded into one, which is read like a row of the single
 * sheet, and each row that has a day is a visit of it. Where an injury is set aside, so are all its rows. A row whose
 * visit cannot be used is set aside, unless the injury is read from it: then it is used without its visit.
 */
export function readVisitSheet({ file, read }: ReadFile, reading: Reading): ReadTables {
  const { queries } = reading;
  const { personIds = "per_site" } = reading.context;
  const ledger = openLedger({ table: tables.single_sheet.name, file }, read);
  for (const query of read.queries) queries.add(query);
  const repeats = repeatedRows(read.rows, visitSheet);
  for (const [row, query] of repeats) {
    queries.add(query);
    ledger.setAside.set(row, query);
  }
  const folded = foldVisits(
    read.rows.filter(({ row }) => !repeats.has(row)),
    personIds,
  );
  const part = { file, words: read.words };
  const { injuries, treatments, imaging, setAside } = readInjuries(folded, { ...reading, ...part });
  const byFirstRow = new Map(injuries.map((injury) => [injury.row, injury]));
  const used = folded.filter(({ injury }) => byFirstRow.has(injury.row));
  for (const { injury, rows } of folded) {
    const query = setAside.get(injury.row);
    if (query !== undefined) for (const { row } of rows) ledger.setAside.set(row, query);
  }
  const ofInjury = rowsOfInjuries(used);
  const visits = readVisits(used, { ...reading, ...part, byFirstRow, ofInjury });
  const refused = [...visits.setAside].filter(([row]) => !ofInjury.has(row));
  for (const [row, query] of refused) ledger.setAside.set(row, query);
  const rows = read.read - ledger.setAside.size;
  const byName = injuriesByName(injuries);
  return {
    tables: {
      injuries,
      treatments,
      imaging: [...imaging, ...visits.typed.flatMap((visit) => readingsOf(visit, byName))],
      visits: visits.typed.map(visitOf),
      sites: [],
      personIds,
    },
    accounts: [
      {
        ...closeLedger(ledger, rows),
        folded: { ...foldedRows(used, rows), visitsNotUsed: visits.setAside.size - refused.length },
      },
    ],
  };
}

/** The rows that injuries are read from: the first of each, and those in which one of its cells stands. */
const rowsOfInjuries = (folded: readonly FoldedInjury[]): ReadonlySet<number> =>
  new Set(folded.flatMap(({ injury, origins }) => [injury.row, ...origins.values()]));

interface Part extends Reading {
  readonly file: string;
  readonly words: RowsOfFile["words"];
}

const rowsAs = (rows: readonly CellRow[], { file, words }: Part): ReadFile => ({
  file,
  read: { read: rows.length, rows, setAside: [], queries: [], ...(words && { words }) },
});

/** The injuries, read as rows of the single sheet; what is asked about a cell names the row in which it stands. */
function readInjuries(folded: readonly FoldedInjury[], part: Part) {
  const origins = new Map(folded.map(({ injury, origins: own }) => [injury.row, own]));
  const atOrigin = (query: DataQuery): DataQuery => ({
    ...query,
    row: origins.get(query.row ?? 0)?.get(query.column ?? "") ?? query.row,
  });
  const queries: QueryList = { ...part.queries, add: (query) => part.queries.add(atOrigin(query)) };
  const rows = folded.map(({ injury }) => injury);
  const sheet = checkRows(rowsAs(rows, part), {
    table: tables.single_sheet,
    rules: [],
    context: part.context,
    queries,
  });
  const contradictions = new Map(folded.map(({ injury, queries: own }) => [injury.row, own]));
  const agreeing = rowsThatPass(sheet.rows, {
    check: ({ row }) => contradictions.get(row) ?? [],
    ledger: sheet.ledger,
    queries: part.queries,
  });
  const used = unfoldUsed({ ...sheet, rows: agreeing }, { context: part.context, queries });
  const setAside = new Map([...sheet.ledger.setAside].map(([row, query]) => [row, atOrigin(query)]));
  return { ...used, setAside };
}

const isVisit = ({ cells }: CellRow): boolean =>
  visitSheet.fields.some((field) => isOfVisit(field) && tidy(cells[field.name] ?? "") !== "");

/** The visits of injuries that are used, under the names of these. @param part ofInjury: rows that are used in any case */
function readVisits(
  folded: readonly FoldedInjury[],
  {
    byFirstRow,
    ofInjury,
    ...part
  }: Part & {
    readonly byFirstRow: ReadonlyMap<number, InjuryOfSheet>;
    readonly ofInjury: ReadonlySet<number>;
  },
) {
  const rows = folded.flatMap(({ injury, rows: own }) =>
    own.filter(isVisit).map(({ file, row, cells }): CellRow => {
      const { injury_id } = byFirstRow.get(injury.row)!.values;
      return { file, row, cells: { ...cells, injury_id } };
    }),
  );
  const withoutVisit = (query: DataQuery): DataQuery =>
    query.severity === "set-aside" && ofInjury.has(query.row ?? 0)
      ? { ...query, severity: "look-at", facts: { ...query.facts, unused: "visit" } }
      : query;
  const queries: QueryList = { ...part.queries, add: (query) => part.queries.add(withoutVisit(query)) };
  const { ledger, rows: typed } = checkRows(rowsAs(rows, part), {
    table: visitOfSheet,
    rules: rowRules.visits,
    context: part.context,
    queries,
  });
  const check = notBeforeInjury<VisitOfSheetRow>(injuriesByName([...byFirstRow.values()]), "date");
  return {
    typed: rowsThatPass(typed, { check, ledger, queries }),
    setAside: ledger.setAside,
  };
}

function visitOf({ values, ...row }: TypedRow<VisitOfSheetRow>): TypedRow<VisitRow> {
  const { distance_rest: _, distance_loaded: __, ...visit } = values;
  return { ...row, values: visit };
}

const blankReading = blankRow(imagingRow);

/** The distances of a visit, on its day. */
function readingsOf(
  { file, row, values }: TypedRow<VisitOfSheetRow>,
  injuries: InjuriesByName,
): TypedRow<ImagingRow>[] {
  return (["rest", "loaded"] as const).flatMap((position) => {
    const distance = values[`distance_${position}`];
    if (distance === null) return [];
    const { value, bound } = boundedOf(distance);
    const reading: ImagingRow = {
      ...blankReading,
      injury_id: values.injury_id,
      date: values.date,
      modality: "ultrasound",
      pulley: injuries.get(values.injury_id)!.pulleys[0]!,
      position,
      distance_mm: value,
      bound: bound === "exact" ? null : bound,
    };
    const columnNames = {
      distance_mm: `distance_${position}`,
      bound: `distance_${position}`,
      pulley: "pulleys",
    };
    return [{ file, row, values: reading, columnNames }];
  });
}

/** What became of the rows, and which cells were read from other rows. */
function foldedRows(folded: readonly FoldedInjury[], rows: number): Omit<FoldedRows, "visitsNotUsed"> {
  const carried = new Map<string, number>();
  for (const injury of folded)
    for (const [column, cells] of injury.carried) carried.set(column, (carried.get(column) ?? 0) + cells);
  return {
    injuries: folded.length,
    further: rows - folded.length,
    carried: [...carried].map(([column, cells]) => ({ column, cells })),
  };
}
