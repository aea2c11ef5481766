import type { TableName } from "../../schema/table-names.js";
import type { RowsOfFile } from "./rows-of-file.js";

/** A file as it was opened: which table it holds, its name for the messages, its bytes. */
export interface SourceFile {
  readonly table: TableName;
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** A table whose rows were taken from its file beforehand: from a workbook, or through a mapping. */
export interface ReadSource {
  readonly table: TableName;
  readonly file: string;
  readonly read: RowsOfFile;
}

/** What a cohort is read from. */
export type CohortSource = SourceFile | ReadSource;
