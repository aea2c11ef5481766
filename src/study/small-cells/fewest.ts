import type { CohortTables } from "../../schema/cohort-tables.js";
import { personKey } from "../../schema/person-key.js";

/** From how many rows on a count is told, by what is counted. */
export interface Fewest {
  /** Fewer people than this make a small cell. */
  readonly people: number;
  /** So many injuries are of at least that many people, whichever they are. */
  readonly injuries: number;
  /** The same for the rows of each table. */
  readonly rows: Readonly<Record<string, number>>;
}

/**
 * From how many rows on there are certainly so many people behind them: one more than the people with the most rows have
 * together, one person fewer than are wanted.
 *
 * @param tables the rows that are used
 * @param people the fewest people behind a count that is told
 */
export function fewestRows(tables: CohortTables, people: number): Fewest {
  const persons = new Map<string, number>();
  const personOf = new Map<string, number>();
  for (const { values } of tables.injuries) {
    const person = personKey(values, tables.personIds);
    const number = persons.get(person) ?? persons.size;
    persons.set(person, number);
    personOf.set(values.injury_id, number);
  }
  // rows whose injury is not used come last, as those of one person
  const of = (rows: readonly { readonly values: { readonly injury_id: string } }[]) => {
    const counts = new Int32Array(persons.size + 1);
    for (const { values } of rows) counts[personOf.get(values.injury_id) ?? persons.size]!++;
    return fewestOf(counts, people);
  };
  const injuries = new Int32Array(persons.size);
  for (const person of personOf.values()) injuries[person]!++;
  return {
    people,
    injuries: fewestOf(injuries, people),
    rows: { treatments: of(tables.treatments), imaging: of(tables.imaging), visits: of(tables.visits) },
  };
}

/** @param counts rows of each person */
function fewestOf(counts: Int32Array, people: number): number {
  const most = counts.toSorted().subarray(Math.max(0, counts.length - (people - 1)));
  return Math.max(
    people,
    most.reduce((sum, n) => sum + n, 1),
  );
}
