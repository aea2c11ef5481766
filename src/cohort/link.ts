import type { TypedRow } from "../schema/cells.js";
import type { CohortTables } from "../schema/cohort-tables.js";
import type { IsoDate } from "../schema/dates.js";
import { personKey } from "../schema/person-key.js";
import type { LinkedInjury } from "./record.js";

/**
 * Puts beside each injury its site, treatments, readings and visits.
 *
 * Injuries keep the order of their table; the rows of an injury are in order of date, then of row.
 * A row whose injury is not among the injuries is left to the query `row-without-injury`, which is
 * raised where the files are read; it is linked to nothing here.
 *
 * @param tables typed rows; each `injury_id` stands once among the injuries
 * @returns one entry an injury; an empty table gives an empty list
 * @throws Error where an `injury_id` stands twice: its treatments and visits would count twice
 */
export function linkTables(tables: CohortTables): readonly LinkedInjury[] {
  assertEachOnce(tables.injuries);
  const sites = new Map(tables.sites.map(({ values }) => [values.site_id, values]));
  const treatments = byInjury(tables.treatments, ({ start_date }) => start_date);
  const imaging = byInjury(tables.imaging, ({ date }) => date);
  const visits = byInjury(tables.visits, ({ date }) => date);
  return tables.injuries.map((injury) => {
    const { injury_id, site_id } = injury.values;
    const closedOn = tables.closings?.get(site_id);
    return {
      injury,
      person: personKey(injury.values, tables.personIds),
      site: (site_id === null ? undefined : sites.get(site_id)) ?? null,
      treatments: treatments.get(injury_id) ?? [],
      imaging: imaging.get(injury_id) ?? [],
      visits: visits.get(injury_id) ?? [],
      ...(closedOn === undefined ? {} : { closedOn }),
    };
  });
}

function assertEachOnce(injuries: CohortTables["injuries"]): void {
  const rows = new Map<string, number>();
  for (const { file, row, values } of injuries) {
    const earlier = rows.get(values.injury_id);
    if (earlier !== undefined) {
      throw new Error(
        `${file}, row ${row}, column "injury_id": "${values.injury_id}" already names the injury of row ${earlier}; ` +
          "expected each injury once. Set one of the two rows aside before the tables are linked.",
      );
    }
    rows.set(values.injury_id, row);
  }
}

/** Stands for a date that is not known: such rows come last. */
const afterAll = "~";

function byInjury<Row extends { readonly injury_id: string }>(
  rows: readonly TypedRow<Row>[],
  dateOf: (values: Row) => IsoDate | null,
): ReadonlyMap<string, readonly TypedRow<Row>[]> {
  const groups = new Map<string, TypedRow<Row>[]>();
  for (const row of rows) {
    const group = groups.get(row.values.injury_id);
    if (group === undefined) groups.set(row.values.injury_id, [row]);
    else group.push(row);
  }
  // Dates of the form YYYY-MM-DD sort as text, in every locale.
  const earlier = (a: TypedRow<Row>, b: TypedRow<Row>) => {
    const [first, second] = [dateOf(a.values) ?? afterAll, dateOf(b.values) ?? afterAll];
    return first < second ? -1 : first > second ? 1 : a.row - b.row;
  };
  for (const group of groups.values()) group.sort(earlier);
  return groups;
}
