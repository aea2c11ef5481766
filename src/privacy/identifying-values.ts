import type { CohortTables } from "../schema/cohort-tables.js";
import type { IdentifyingKind } from "../schema/identifying/patterns.js";
import { scanText } from "../schema/identifying/scan-text.js";
import { linkedTableNames } from "../schema/table-names.js";
import { tables as schemas, type Table } from "../schema/tables.js";
import { equivalenceClasses } from "./classes.js";
import type { SharedRow } from "./de-identify.js";
import type { Disclosure } from "./disclosure.js";
import { combinationsOf } from "./ladder.js";
import type { Values } from "./persons.js";
import { cellOf } from "./quasi-fields.js";
import type { ShareSettings } from "./settings.js";

/** What free text of the rows used seems to hold: how many texts of which kind, by column. */
export function findingsInTexts(tables: CohortTables): Disclosure["in_texts"] {
  return linkedTableNames.flatMap((table) =>
    (schemas[table] as Table).fields
      .filter(({ kind }) => kind === "text")
      .flatMap(({ name: column }) => {
        const counts = new Map<IdentifyingKind, number>();
        for (const row of tables[table]) {
          const text = (row.values as Values)[column];
          const kinds = typeof text === "string" ? new Set(scanText(text).map(({ kind }) => kind)) : [];
          for (const kind of kinds) counts.set(kind, (counts.get(kind) ?? 0) + 1);
        }
        return [...counts].map(([kind, texts]) => ({ table, column, kind, texts }));
      }),
  );
}

/** Values of the injuries' other columns that fewer than k people share; numbers in bands count as values. */
export function rareValues(
  rows: readonly SharedRow[],
  { columns, k }: { readonly columns: readonly string[]; readonly k: number },
): Disclosure["rare_values"] {
  return columns.flatMap((column) => {
    const people = new Map<string, Set<string>>();
    for (const { person, values } of rows) {
      const value = cellOf(values, column);
      if (value === "") continue;
      people.set(value, (people.get(value) ?? new Set()).add(person ?? ""));
    }
    const rare = [...people.values()].filter(({ size }) => size < k);
    const among = new Set(rare.flatMap((persons) => [...persons]));
    return rare.length === 0 ? [] : [{ column, values: rare.length, people: among.size }];
  });
}

/**
 * Combinations shared by several people of whom all returned, or none did: whoever knows that somebody is among them
 * knows that too, however many they are.
 *
 * @source Machanavajjhala et al. 2007, ACM Trans Knowl Discov Data 1:3 (homogeneity)
 */
export function classesOfOneOutcome(
  rows: readonly SharedRow[],
  {
    fields,
    returned,
    k,
  }: {
    readonly fields: readonly string[];
    readonly returned: (row: SharedRow) => boolean;
    readonly k: number;
  },
): Disclosure["one_outcome"] {
  const alike = equivalenceClasses(combinationsOf(rows, fields)).filter(
    ({ rows: places, people }) =>
      people >= Math.max(2, k) && new Set(places.map((place) => returned(rows[place]!))).size === 1,
  );
  return { classes: alike.length, people: alike.reduce((sum, { people }) => sum + people, 0) };
}

/** Whether a row of the injuries, or a visit to it, tells that the milestone was reached. */
export function returnedBy(
  tables: CohortTables,
  milestone: ShareSettings["milestone"],
): (row: SharedRow) => boolean {
  const seen = new Set(
    tables.visits.filter(({ values }) => values[milestone] === "yes").map(({ values }) => values.injury_id),
  );
  return ({ injury }) =>
    injury !== null &&
    (injury[`${milestone}_date`] !== null ||
      injury[`${milestone}_not_after`] !== null ||
      seen.has(injury.injury_id));
}
