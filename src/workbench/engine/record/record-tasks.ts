import type { Severity } from "../../../schema/data-query.js";
import type { FieldKind } from "../../../schema/field.js";
import type { LinkedTableName } from "../../../schema/table-names.js";
import type { NamedBytes } from "../named-bytes.js";
import type { Draft } from "./draft.js";
import type { ClinicRecord, TableOfInjury } from "./record.js";

// What the page asks about a record and what it gets back. Nothing of the record stays with the engine.

/** One field of a form, as the schema has it. */
export interface FormField {
  readonly name: string;
  readonly label: string;
  readonly description: string;
  readonly kind: FieldKind;
  readonly isRequired: boolean;
  /** Whether the short form shows it at once; the others stand under "more". */
  readonly isUsual: boolean;
  readonly terms: readonly { readonly term: string; readonly label: string }[];
  /** What the cell may hold, in words; null where any text may stand. */
  readonly expected: string | null;
  readonly unit: string | null;
  readonly example: string;
}

export interface FormSection {
  readonly id: string;
  readonly title: string;
  readonly fields: readonly FormField[];
}

/** The forms of all tables, made from the schema. */
export type RecordForms = Readonly<Record<LinkedTableName, readonly FormSection[]>>;

/** What the checks of ingest say about a place. */
export interface Finding {
  readonly severity: Severity;
  /** Null where it is about a row as a whole. */
  readonly column: string | null;
  readonly what: string;
  readonly correction: string;
  readonly consequence: string;
  /** Whether nothing is wrong but that the cell is still blank. */
  readonly isBlank: boolean;
}

/** What the checks say about the rows of a draft, by the key of the row. */
export interface DraftFindings {
  readonly rows: Readonly<
    Record<number, { readonly isSetAside: boolean; readonly findings: readonly Finding[] }>
  >;
  /** About other rows of the same person. */
  readonly others: readonly (Finding & { readonly where: string })[];
}

/** A row of an injury in a line. */
export interface LinkedRowView {
  readonly table: TableOfInjury;
  readonly key: number;
  readonly day: string;
  readonly words: string;
  readonly findings: readonly Finding[];
}

/** An injury of the list. */
export interface InjuryView {
  readonly key: number;
  readonly id: string;
  readonly person: string;
  readonly when: string;
  readonly where: string;
  readonly grade: string;
  readonly treatments: string;
  readonly back: string;
  readonly lastContact: string;
  readonly isSetAside: boolean;
  readonly findings: readonly Finding[];
  readonly rows: readonly LinkedRowView[];
}

export interface RecordView {
  readonly injuries: readonly InjuryView[];
  /** Rows that name no injury of the record. */
  readonly loose: readonly LinkedRowView[];
  readonly accounts: readonly {
    readonly table: string;
    readonly read: number;
    readonly used: number;
    readonly setAside: number;
  }[];
}

export interface RecordTasks {
  recordForms: () => Promise<RecordForms>;
  recordView: (record: ClinicRecord) => Promise<RecordView>;
  recordCheck: (given: { readonly record: ClinicRecord; readonly draft: Draft }) => Promise<DraftFindings>;
  /** The file that the user keeps. */
  recordFile: (given: { readonly record: ClinicRecord; readonly name: string }) => Promise<NamedBytes>;
  recordOpen: (files: readonly NamedBytes[]) => Promise<ClinicRecord>;
  /** The file together with a study file that names its sheets, as the command line takes them. */
  recordStudy: (given: {
    readonly record: ClinicRecord;
    readonly name: string;
  }) => Promise<readonly NamedBytes[]>;
}
