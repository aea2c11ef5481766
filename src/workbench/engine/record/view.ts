import { cellReaderOf, type Field, labelOf, tables, unitInWords } from "../../../schema/index.js";
import type { LinkedTableName } from "../../../schema/table-names.js";
import type { Table } from "../../../schema/tables.js";
import { checkedRecord, findingOf } from "./findings.js";
import { type ClinicRecord, cell, type RecordRow, type TableOfInjury, tablesOfInjury } from "./record.js";
import type { Finding, InjuryView, LinkedRowView, RecordView } from "./record-tasks.js";

/** The record as a list of injuries, each with its rows and with what ingest says about them. */
export function recordView(record: ClinicRecord): RecordView {
  const { read, queries, setAside } = checkedRecord(record);
  const findings = new Map<number, Finding[]>();
  for (const { key, query } of queries) {
    if (key === null) continue;
    findings.set(key, [...(findings.get(key) ?? []), findingOf(query)]);
  }
  const about = (key: number): readonly Finding[] => findings.get(key) ?? [];
  const byInjury = linkedRows(record, about);
  const names = new Set(record.rows.injuries.map(({ cells }) => cell(cells, "injury_id")));
  return {
    injuries: record.rows.injuries.map((row) => {
      const rows = byInjury.get(cell(row.cells, "injury_id")) ?? [];
      return { ...injuryView(row, rows), isSetAside: setAside.has(row.key), findings: about(row.key), rows };
    }),
    loose: [...byInjury].flatMap(([name, rows]) => (names.has(name) ? [] : rows)),
    accounts: read.accounts.map((account) => ({
      table: labelOf(account.table),
      read: account.read,
      used: account.used,
      setAside: account.setAside.length,
    })),
  };
}

function injuryView(
  { key, cells }: RecordRow,
  rows: readonly LinkedRowView[],
): Omit<InjuryView, "isSetAside" | "findings" | "rows"> {
  const said = (name: string) => saidCell("injuries", { name, text: cell(cells, name) });
  const treated = rows.filter(({ table }) => table === "treatments").map(({ words }) => words.split(",")[0]!);
  return {
    key,
    id: cell(cells, "injury_id"),
    person: cell(cells, "person_id"),
    when: cell(cells, "injury_date"),
    where: ["hand", "finger", "pulleys"].map(said).filter(isFilled).join(" "),
    grade: said("grade"),
    treatments: [...new Set(treated)].join(", then "),
    back: cell(cells, "full_climbing_date"),
    lastContact: cell(cells, "last_contact_date"),
  };
}

/** The columns that hold the day of a row, and those that tell it in a line. */
const told: Readonly<Record<TableOfInjury, { readonly day: string; readonly columns: readonly string[] }>> = {
  treatments: { day: "start_date", columns: ["treatment", "kind", "end_date"] },
  imaging: { day: "date", columns: ["pulley", "position", "distance_mm"] },
  visits: { day: "date", columns: ["kind", "full_climbing", "pain_load", "complication"] },
};

function linkedRows(
  { rows }: ClinicRecord,
  about: (key: number) => readonly Finding[],
): ReadonlyMap<string, readonly LinkedRowView[]> {
  const byInjury = new Map<string, LinkedRowView[]>();
  for (const table of tablesOfInjury)
    for (const { key, cells } of rows[table]) {
      const { day, columns } = told[table];
      const words = columns
        .map((name) => ({ name, text: cell(cells, name) }))
        .filter(({ text }) => isFilled(text))
        .map((one) => saidCell(table, one));
      const view = { table, key, day: cell(cells, day), words: words.join(", "), findings: about(key) };
      const name = cell(cells, "injury_id");
      const list = byInjury.get(name);
      if (list === undefined) byInjury.set(name, [view]);
      else list.push(view);
    }
  for (const list of byInjury.values()) list.sort((one, other) => (one.day < other.day ? -1 : 1));
  return byInjury;
}

const isFilled = (text: string): boolean => text !== "";

function saidCell(
  table: LinkedTableName,
  { name, text }: { readonly name: string; readonly text: string },
): string {
  const field = (tables[table] as Table).fields.find((one) => one.name === name)!;
  if (text === "") return "";
  const value = termsIn(field, text);
  const whole = field.unit === undefined ? value : `${value} ${unitInWords(field.unit)}`;
  return standAlone.has(name) ? whole : `${labelOf(name)} ${whole}`;
}

/** Fields whose words say alone what they are of. */
const standAlone: ReadonlySet<string> = new Set([
  "hand",
  "finger",
  "pulleys",
  "grade",
  "treatment",
  "kind",
  "pulley",
  "position",
  "distance_mm",
]);

/** The text of a cell in the words of a reader, or as it was written where it cannot be read. */
function termsIn(field: Field, text: string): string {
  if (field.terms === undefined) return text;
  const reading = cellReaderOf(field)(text);
  // text that says nothing, such as a space of no width, is read as blank
  if (!("value" in reading) || reading.value === null) return text;
  const value = reading.value as string | readonly string[];
  return typeof value === "string" ? labelOf(value) : value.map(labelOf).join(", ");
}
