import type { DataQuery } from "../../schema/data-query.js";
import { idText, shortHash } from "./query-id.js";
import type { RowNames } from "./row-names.js";

/** A query under its id. */
export interface NamedQuery {
  readonly id: string;
  readonly query: DataQuery;
  readonly table: string;
  /** The person as written in the tables; null where no row, or no person, is concerned. */
  readonly person: string | null;
}

/** Sixty bits: among a million queries, two share an id by chance in fewer than one of a million files. */
const usualLength = 12;
const longestLength = 48;

/** Gives ids. The same queries get the same ids, in any pass. */
export interface Register {
  readonly nameAll: (queries: readonly DataQuery[]) => readonly NamedQuery[];
}

/**
 * A register of ids. Two queries that the short hash cannot tell apart are told apart by a longer one; two equal queries
 * about one row by their ordinal.
 *
 * @param names the rows of the files as they were read, before any answer
 * @param options length: digits of an id
 */
export function register(names: RowNames, { length = usualLength }: { length?: number } = {}): Register {
  const taken = new Map<string, string>();
  const idOf = (text: string): string => {
    for (let digits = length; digits <= longestLength; digits += 4) {
      const id = shortHash(text, digits);
      const holder = taken.get(id) ?? text;
      if (holder !== text) continue;
      taken.set(id, text);
      return id;
    }
    throw new Error("two queries share 240 bits of a hash: this is a fault of the toolkit");
  };
  const nameAll = (queries: readonly DataQuery[]) => {
    const ordinals = new Map<string, number>();
    return queries.map((query): NamedQuery => {
      const { table, rowName, person } = names.of(query);
      const first = idText(query, { table, rowName }, 1);
      const ordinal = (ordinals.get(first) ?? 0) + 1;
      ordinals.set(first, ordinal);
      const text = ordinal === 1 ? first : idText(query, { table, rowName }, ordinal);
      return { id: idOf(text), query, table, person };
    });
  };
  return { nameAll };
}
