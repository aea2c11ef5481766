import type { TableName } from "../schema/tables.js";

/** A file as it was opened: which table it holds, its name for the messages, its bytes. */
export interface SourceFile {
  readonly table: TableName;
  readonly file: string;
  readonly bytes: Uint8Array;
}
