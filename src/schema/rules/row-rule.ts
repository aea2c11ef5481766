import { askAbout, type Finding } from "../ask.js";
import type { TypedRow } from "../cells.js";
import type { DataQuery, RowCode, Severity } from "../data-query.js";
import type { IsoDate } from "../dates.js";

/** What a rule may know besides the row. */
export interface RuleContext {
  /** The day on which the data were closed; null when not stated. */
  readonly closedOn: IsoDate | null;
}

/** A rule about one row: what it finds, and what then happens to the row. */
export interface RowRule<Row> {
  readonly code: RowCode;
  readonly severity: Severity;
  readonly check: (values: Row, context: RuleContext) => Finding | null;
}

/** Nearly every row: no list for each of them. */
const none: readonly DataQuery[] = [];

/** Holds one row against the rules; every rule that is broken gives a query. */
export function checkRow<Row>(
  row: TypedRow<Row>,
  { rules, context }: { readonly rules: readonly RowRule<Row>[]; readonly context: RuleContext },
): readonly DataQuery[] {
  let queries: DataQuery[] | null = null;
  for (const { code, severity, check } of rules) {
    const finding = check(row.values, context);
    if (finding === null) continue;
    queries ??= [];
    queries.push(askAbout(row, { ...finding, code, severity }));
  }
  return queries ?? none;
}
