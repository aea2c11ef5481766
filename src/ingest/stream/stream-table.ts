import { counted } from "../../schema/counted.js";
import type { DataQuery, QueryCode } from "../../schema/data-query.js";
import { queryList } from "../../schema/query-list.js";
import type { RowRule } from "../../schema/rules/row-rule.js";
import type { Table } from "../../schema/tables.js";
import type { ReadingContext } from "../table/check-rows.js";
import { tableReader } from "../table/table-reader.js";
import { type AskAboutFile, askerAboutFile } from "../text/ask-about-file.js";
import {
  type Decodable,
  type EncodingOfStream,
  encodingOfStream,
  type OpenChunks,
  streamDecoder,
} from "./encoding-of-stream.js";
import { rowChecker, type StreamedRow } from "./row-checker.js";

/** A table that is read without ever being in memory as a whole. */
export interface StreamOptions<Row> {
  readonly table: Table<Row>;
  readonly rules: readonly RowRule<Row>[];
  readonly context: ReadingContext;
  /** Takes each row that can be used, in the order of the file. */
  readonly onRow: (row: StreamedRow) => void;
  /** Told from time to time how many rows were read so far, and how much of the bytes, 0 to 1. */
  readonly onProgress?: (so: { readonly rows: number; readonly share: number }) => void;
}

/** What became of the rows of a stream: read = used + set aside. */
export interface StreamedTable {
  readonly read: number;
  readonly used: number;
  readonly setAside: number;
  /** How many rows each kind of query set aside; of several queries the first counts. */
  readonly reasons: ReadonlyMap<QueryCode, number>;
  /**
   * Rows that were handed over and are set aside after all, since a later row has the same key; they are among those
   * set aside.
   */
  readonly withdrawn: ReadonlySet<number>;
  /** Every query, at most 200 of a kind in full. With one of severity `stop` nothing was read. */
  readonly queries: readonly DataQuery[];
}

/**
 * Reads, types and checks a delimited table as a stream: memory does not grow with the file, but for the keys of a
 * table that has any. The bytes are gone through twice, first for the encoding.
 *
 * Each row is checked by itself; rules over several rows need the tables whole (`readCohort`).
 *
 * @param source the name of the file for messages, and how to open its bytes
 * @throws Error when the account of the rows does not balance, which is a fault of the toolkit
 */
export async function streamTable<Row>(
  { file, open }: { readonly file: string; readonly open: OpenChunks },
  options: StreamOptions<Row>,
): Promise<StreamedTable> {
  const queries = queryList();
  const ask = askerAboutFile(file, queries);
  const found = await encodingOfStream(open);
  const encoding = askedAboutEncoding(found, ask);
  if (encoding === null) return { ...nothing, queries: queries.all() };

  const checker = rowChecker(file, { ...options, ask: queries.add });
  const reader = tableReader(options.table as Table, { ask, rows: checker });
  const { decode, finish } = streamDecoder(encoding.encoding);
  let bytes = 0;
  for await (const chunk of open()) {
    const text = decode(chunk);
    if (text.includes("\0")) {
      ask({ code: "file-not-text", severity: "stop", facts: { kind: "it contains NUL bytes" } });
      break;
    }
    reader.read(text);
    bytes += chunk.length;
    options.onProgress?.({
      rows: checker.soFar().used + checker.soFar().setAside,
      share: bytes / encoding.bytes,
    });
  }
  reader.read(finish());
  const read = reader.finish();
  const asked = queries.all();
  if (asked.some(({ severity }) => severity === "stop")) return { ...nothing, queries: asked };
  const account = checker.soFar();
  if (read !== account.used + account.setAside) {
    throw new Error(
      `${file}: row accounting of the stream does not balance: ${counted(read, "row", "rows")} read, ${account.used} used, ${account.setAside} set aside.`,
    );
  }
  return { read, ...account, queries: asked };
}

const nothing = { read: 0, used: 0, setAside: 0, reasons: new Map(), withdrawn: new Set<number>() };

function askedAboutEncoding(found: EncodingOfStream, ask: AskAboutFile): Decodable | null {
  if (found === "empty") {
    ask({ code: "file-empty", severity: "stop" });
    return null;
  }
  if ("notText" in found) {
    ask({ code: "file-not-text", severity: "stop", facts: { kind: found.notText } });
    return null;
  }
  if (found.encoding === "windows-1252") ask({ code: "file-not-utf8", severity: "look-at" });
  return found;
}
