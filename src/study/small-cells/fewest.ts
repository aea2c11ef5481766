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
  const personOf = new Map(
    tables.injuries.map(({ values }) => [values.injury_id, personKey(values, tables.personIds)]),
  );
  const persons = [...personOf.values()];
  const of = (rows: readonly { readonly values: { readonly injury_id: string } }[]) =>
    fewestOf(
      rows.map(({ values }) => personOf.get(values.injury_id) ?? ""),
      people,
    );
  return {
    people,
    injuries: fewestOf(persons, people),
    rows: { treatments: of(tables.treatments), imaging: of(tables.imaging), visits: of(tables.visits) },
  };
}

function fewestOf(persons: readonly string[], people: number): number {
  const rows = new Map<string, number>();
  for (const person of persons) rows.set(person, (rows.get(person) ?? 0) + 1);
  const most = [...rows.values()].sort((one, other) => other - one).slice(0, people - 1);
  return Math.max(
    people,
    most.reduce((sum, n) => sum + n, 1),
  );
}
