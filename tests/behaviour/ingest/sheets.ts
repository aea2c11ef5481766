import type { SourceFile } from "../../../src/ingest/index.js";
import {
  csvText,
  type DataQuery,
  type QueryCode,
  type TableName,
  tables,
} from "../../../src/schema/index.js";

type Cells = Readonly<Record<string, string>>;

/** A row of each table that nothing is to be said against. */
export const plainRows = {
  injuries: {
    injury_id: "P09-1",
    person_id: "P09",
    injury_date: "2024-03-04",
    hand: "left",
    finger: "ring",
    pulleys: "A2",
    pulley_extents: "complete",
    grade: "3",
    last_contact_date: "2024-11-18",
  },
  treatments: { injury_id: "P09-1", treatment: "ring", start_date: "2024-03-10", end_date: "2024-05-05" },
  imaging: {
    injury_id: "P09-1",
    date: "2024-03-08",
    modality: "ultrasound",
    pulley: "A2",
    position: "loaded",
    distance_mm: "3.4",
  },
  visits: { injury_id: "P09-1", date: "2024-04-15" },
  sites: { site_id: "site-a" },
  single_sheet: {
    person: "P09",
    injury_date: "2024-03-04",
    hand: "left",
    finger: "ring",
    pulleys: "A2",
    grade: "3",
    last_contact: "2024-11-18",
  },
} as const satisfies Record<TableName, Cells>;

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A CSV file as it might be opened. */
export const fileOf = (table: TableName, text: string | Uint8Array): SourceFile => ({
  table,
  file: `${table}.csv`,
  bytes: typeof text === "string" ? bytesOf(text) : text,
});

/** A file with every column of the table; each row is the plain one with some cells changed. */
export function sheetOf(table: TableName, changes: readonly Cells[] = [{}]): SourceFile {
  const columns = tables[table].fields.map(({ name }) => name);
  const rows = changes.map((change): Cells => ({ ...plainRows[table], ...change }));
  return fileOf(
    table,
    csvText(
      columns,
      rows.map((row) => columns.map((column) => row[column] ?? "")),
    ),
  );
}

/** Codes of queries in the order in which they were asked. */
export const codesOf = (queries: readonly DataQuery[]): readonly QueryCode[] =>
  queries.map(({ code }) => code);

export const study = { closedOn: "2025-06-30", thresholdMm: 2 } as const;
