import {
  counted,
  type DateOrder,
  groupQueries,
  groupText,
  rowRules,
  type Table,
  type TableName,
  tables,
} from "../../schema/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { piecesOfFile } from "../read-input.js";
import type { Terminal } from "../terminal.js";

export interface CheckTableOptions {
  readonly table: TableName;
  readonly dateOrder?: DateOrder;
  readonly closedOn?: string;
}

/** Rows between two reports of progress. */
const everyRows = 20_000;

/** Reads one table of any size as a stream and lists the queries about each row by itself; changes nothing. */
export async function checkTable(
  file: string,
  { table, dateOrder = "year-first", closedOn }: CheckTableOptions,
  { say, progress }: Terminal,
): Promise<ExitCode> {
  const { streamTable } = await import("../../ingest/stream/index.js");
  let told = 0;
  const streamed = await streamTable<never>(
    { file, open: () => piecesOfFile(file) },
    {
      table: tables[table] as Table<never>,
      rules: table === "single_sheet" ? [] : rowRules[table],
      context: { closedOn: closedOn ?? null, dateOrder },
      onRow: () => undefined,
      onProgress: ({ rows, share }) => {
        if (rows - told < everyRows) return;
        told = rows;
        progress(`${counted(rows, "row", "rows")}, ${Math.floor(100 * share)} %`);
      },
    },
  );
  const { read, used, setAside, queries } = streamed;
  const isStopped = queries.some(({ severity }) => severity === "stop");
  say(
    [
      `${file} (${table}): ${counted(read, "row", "rows")} read = ${used} used + ${setAside} set aside`,
      ...[...streamed.reasons].map(([code, count]) => `  set aside, ${code}: ${count}`),
      "",
      ...groupQueries(queries).map(groupText),
      queries.length === 0 ? "There are no queries about single rows." : "",
      "Each row was checked by itself. Rules about several rows or tables need a study file: pulley-outcomes check study.yaml",
    ].join("\n"),
  );
  if (isStopped) return exitCodes.input;
  return setAside > 0 ? exitCodes.found : exitCodes.done;
}
