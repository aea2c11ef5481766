import type { Count, Results } from "../../study/results.js";
import { fileName } from "../../words/terms.js";
import { type ColumnsOf, type FlatTable, flatTable } from "./reshape.js";

type QueryGroup = Results["queries"][number];

/** What became of the rows, and the queries about them. */
export const rowTables = (results: Results): FlatTable[] => [
  flatTable("accounting", { things: stagesOf(results), columns: stageColumns }),
  flatTable("queries", { things: results.queries, columns: queryColumns }),
];

/** One count of the flow: so many at a stage, or so many that went no further and why. */
interface Stage {
  readonly stage: string;
  readonly table: string;
  readonly what: "read" | "kept" | "not kept";
  readonly reason: string | null;
  readonly n: Count;
}

const stageColumns: ColumnsOf<Stage> = {
  stage: ({ stage }) => stage,
  table: ({ table }) => table,
  what: ({ what }) => what,
  reason: ({ reason }) => reason,
  n: ({ n }) => n,
};

function stagesOf({ accounting }: Results): Stage[] {
  const { tables, analysis, comparison } = accounting;
  const stage =
    (name: string, table: string) =>
    (what: Stage["what"], n: Count, reason: string | null = null) => ({
      stage: name,
      table,
      what,
      reason,
      n,
    });
  const analyse = stage("analysis", "injuries");
  const compare = stage("comparison", "injuries");
  return [
    ...tables.flatMap(({ table, site, read, used, reasons }) => {
      const rows = stage("rows", site === undefined ? table : `${table}, ${site}`);
      return [
        rows("read", read),
        rows("kept", used),
        ...reasons.map(({ code, n }) => rows("not kept", n, code)),
      ];
    }),
    analyse("read", analysis.injuries),
    analyse("kept", analysis.analysed),
    ...analysis.excluded.map(({ code, n }) => analyse("not kept", n, code)),
    compare("read", comparison.analysed),
    compare("kept", comparison.compared),
    ...comparison.left_out.map(({ code, n }) => compare("not kept", n, code)),
  ];
}

const queryColumns: ColumnsOf<QueryGroup> = {
  code: ({ code }) => code,
  severity: ({ severity }) => severity,
  file: ({ file }) => fileName(file),
  column: ({ column }) => column,
  n: ({ n }) => n,
  rows: ({ rows }) => rows.join(" "),
  expected: ({ expected }) => expected,
  correction: ({ correction }) => correction,
};
