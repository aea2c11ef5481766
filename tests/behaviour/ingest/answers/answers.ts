import {
  type CohortForSite,
  readCohort,
  readCohortForSite,
  type SourceFile,
} from "../../../../src/ingest/index.js";
import type { QueryCode, ReadCohort } from "../../../../src/schema/index.js";
import { csvText } from "../../../../src/schema/index.js";
import { study } from "../sheets.js";

const columns = ["id", "rule", "column", "answer", "new_value"] as const;
export type Line = Partial<Record<(typeof columns)[number], string>>;

/** A file of answers with these lines. */
export const answersOf = (lines: readonly Line[]) => ({
  file: "answers.csv",
  bytes: new TextEncoder().encode(
    csvText(
      columns,
      lines.map((line) => columns.map((column) => line[column] ?? "")),
    ),
  ),
});

export const forSite = (sources: readonly SourceFile[], lines?: readonly Line[]): CohortForSite =>
  readCohortForSite(sources, { ...study, ...(lines === undefined ? {} : { answers: answersOf(lines) }) });

export const answered = (sources: readonly SourceFile[], lines: readonly Line[]): ReadCohort =>
  readCohort(sources, { ...study, answers: answersOf(lines) });

/** The id of the one open query of a kind. */
export function idOf(sources: readonly SourceFile[], code: QueryCode, lines?: readonly Line[]): string {
  const found = forSite(sources, lines).open.filter(({ query }) => query.code === code);
  if (found.length !== 1) throw new Error(`one query ${code} was expected, found ${found.length}`);
  return found[0]!.id;
}
