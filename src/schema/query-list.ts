import type { DataQuery } from "./data-query.js";

/** How many alike queries are kept one by one; those beyond are counted on the last that is kept. */
const keptOfAKind = 200;

/** Whether alike queries beyond 200 are counted only, or kept as well: for a list that a site is to answer. */
export type Keep = "some" | "every";

/** Queries as they come in, at most 200 in full of each kind, so that a garbled file cannot fill the memory. */
export interface QueryList {
  readonly add: (query: DataQuery) => void;
  /** The queries kept; where more came in than are kept, the last of its kind has the fact `more`. */
  readonly all: () => readonly DataQuery[];
}

/**
 * An empty list. Alike means: same file, code, column and severity.
 *
 * @param keep "some" keeps 200 of a kind and counts the rest, "every" keeps all of them
 */
export function queryList(keep: Keep = "some"): QueryList {
  const room = keep === "every" ? Number.POSITIVE_INFINITY : keptOfAKind;
  const kept: DataQuery[] = [];
  const kinds = new Map<string, { kept: number; last: number; more: number }>();
  return {
    add: (query) => {
      const name = `${query.code}\n${query.severity}\n${query.column ?? ""}\n${query.file}`;
      const kind = kinds.get(name) ?? { kept: 0, last: -1, more: 0 };
      kinds.set(name, kind);
      if (kind.kept < room) {
        kind.kept += 1;
        kind.last = kept.push(alone(query)) - 1;
        kind.more += queryCount(query) - 1;
      } else {
        kind.more += queryCount(query);
      }
    },
    all: () => {
      const queries = [...kept];
      for (const { last, more } of kinds.values()) {
        const query = queries[last];
        if (more > 0 && query !== undefined) queries[last] = { ...query, facts: { ...query.facts, more } };
      }
      return queries;
    },
  };
}

/** How many queries a query stands for: one, and those counted on it. */
export const queryCount = ({ facts }: DataQuery): number => 1 + Number(facts.more ?? 0);

function alone(query: DataQuery): DataQuery {
  if (query.facts.more === undefined) return query;
  const { more: _, ...facts } = query.facts;
  return { ...query, facts };
}
