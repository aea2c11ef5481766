import { csvText, type DataQuery, groupQueries, groupText, sayQuery, timesOf } from "../../schema/index.js";
import { type ExitCode, exitCodes } from "../exit-codes.js";
import { writeNewFile } from "../files.js";
import { openStudy } from "../study-input.js";
import type { Terminal } from "../terminal.js";

export interface CheckOptions {
  readonly queries?: string;
}

/** Reads every table of a study and says what is doubtful; changes nothing. */
export async function check(study: string, options: CheckOptions, terminal: Terminal): Promise<ExitCode> {
  const { read } = await openStudy(study, terminal);
  const setAside = read.accounts.reduce((sum, account) => sum + account.setAside.length, 0);
  terminal.say(
    [
      ...read.accounts.map(
        ({ file, table, read: rows, used, setAside: aside }) =>
          `${file} (${table}): ${rows} rows read = ${used} used + ${aside.length} set aside`,
      ),
      "",
      ...groupQueries(read.queries).map(groupText),
      read.queries.length === 0 ? "No doubts." : "",
    ].join("\n"),
  );
  if (options.queries !== undefined) {
    await writeNewFile(options.queries, queriesAsCsv(read.queries));
    const kept = read.queries.length;
    const all = read.queries.reduce((sum, query) => sum + timesOf(query), 0);
    const beyond = all > kept ? `; ${all - kept} more like them are counted, not listed` : "";
    terminal.say(
      `${kept} doubts, one a row: ${options.queries} (holds values from the tables: keep it at the site)${beyond}`,
    );
  }
  return setAside > 0 ? exitCodes.found : exitCodes.done;
}

/** One row a doubt, for the site to answer. */
function queriesAsCsv(queries: readonly DataQuery[]): string {
  const columns = ["severity", "code", "file", "row", "column", "injury", "found", "expected", "mend"];
  return csvText(
    columns,
    queries.map((query) => {
      const { expected, mend } = sayQuery(query);
      return [
        query.severity,
        query.code,
        query.file,
        query.row,
        query.column,
        query.injury,
        query.found,
        expected,
        mend,
      ];
    }),
  );
}
