import type { DataQuery } from "./data-query.js";
import { groupQueries, groupText } from "./group-queries.js";
import { InputError } from "./input-error.js";

/** Files that cannot be read at all: every reason at once, in words. */
export class StopError extends InputError {
  override readonly name = "StopError";
  readonly queries: readonly DataQuery[];

  constructor(queries: readonly DataQuery[]) {
    super(groupQueries(queries).map(groupText).join("\n"));
    this.queries = queries;
  }
}
