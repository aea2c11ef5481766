import type { CohortTables } from "../schema/cohort-tables.js";
import { type LinkedTableName, linkedTableNames } from "../schema/table-names.js";
import { tableText } from "../schema/table-text.js";
import { calendarsOf } from "./calendars.js";
import { classSizes, equivalenceClasses } from "./classes.js";
import { deIdentified, type SharedRow, type SharedTable } from "./de-identify.js";
import type { ColumnDisclosure, Disclosure } from "./disclosure.js";
import { classesOfOneOutcome, findingsInTexts, rareValues, returnedBy } from "./find-out.js";
import { keyedNames } from "./keyed-names.js";
import { combinationsOf } from "./ladder.js";
import { personsOfInjuries, type Values } from "./persons.js";
import { countableFields, injuryYear, quasiFields } from "./quasi-fields.js";
import { type Lessened, lessened } from "./rare-combinations.js";
import { sayColumn } from "./say-column.js";
import type { SecretKey } from "./secret-key.js";
import type { ShareSettings } from "./settings.js";

/** A table of the copy: columns in the order of the schema, rows as they will stand in the file. */
export interface CopiedTable {
  readonly table: LinkedTableName;
  readonly columns: readonly string[];
  readonly rows: readonly Values[];
  /** The same as CSV. */
  readonly text: string;
}

/** A shareable copy of a cohort, and what it discloses. */
export interface SharedCohort {
  readonly tables: readonly CopiedTable[];
  readonly disclosure: Disclosure;
  /** The name in the copy of a site of the study. */
  readonly siteName: (site: string) => string;
}

/**
 * A copy of the rows that are used, in which nobody is named: cells under the rules of their columns, rare combinations
 * listed or lessened, rows in an order that tells nothing. Differences of days between the dates of a person stay to the
 * day, so that a report on the copy finds the same times.
 *
 * k-anonymity counts only what is asked of it; the copy is not anonymous by that, and whether it may leave is for people.
 *
 * @param tables typed rows that are used
 * @param options the key, and settings (`defaultSettings`)
 * @throws RangeError for a field that cannot be counted; Error for a key that is none
 * @source Sweeney 2002, Int J Uncertain Fuzziness Knowl-Based Syst 10:557; day offsets: Hripcsak et al. 2016, J Am Med
 *   Inform Assoc 23:1040 (from memory)
 */
export function shareCohort(
  tables: CohortTables,
  { key, settings }: { readonly key: SecretKey; readonly settings: ShareSettings },
): SharedCohort {
  const fields = quasiFields(settings);
  const names = keyedNames(key);
  const means = { settings, names, calendars: calendarsOf(tables, { settings, names }) };
  const tablesInCopy = linkedTableNames.map((table) => deIdentified(table, { tables, means }));
  const injuries = tablesInCopy[0]!;
  const less = lessened(injuries.rows, { fields, settings });
  const rows = new Map<LinkedTableName, readonly SharedRow[]>(
    tablesInCopy.map(({ table, rows: all }) => [table, all]),
  );
  rows.set("injuries", less.rows);
  if (less.siteLeftOut) rows.set("sites", []);
  const ordered = tablesInCopy
    .filter(({ table }) => rows.get(table)!.length > 0)
    .map((each) =>
      copied(each, settings.order === "by-name" ? byName(rows.get(each.table)!) : rows.get(each.table)!),
    );
  const disclosure = disclosureOf({ tables, tablesInCopy, ordered, less, fields, settings });
  // who stands behind a row goes no further than this
  const copies = ordered.map(({ shared: _, ...copy }) => copy);
  return { tables: copies, disclosure, siteName: (site) => names.nameOf("site", [site]) };
}

function copied(
  { table, columns }: SharedTable,
  rows: readonly SharedRow[],
): CopiedTable & { shared: readonly SharedRow[] } {
  const names = columns.filter(({ rule }) => rule.act !== "leave-out").map(({ field }) => field.name);
  const values = rows.map((row) => row.values);
  return { table, columns: names, rows: values, text: tableText(table, values, names), shared: rows };
}

/** Rows in the order of their keyed names, then as they stood: the order of a file often is the order in time. */
function byName(rows: readonly SharedRow[]): readonly SharedRow[] {
  const name = ({ values }: SharedRow) => String(values.injury_id ?? values.site_id ?? "");
  return [...rows].sort((one, other) => (name(one) < name(other) ? -1 : name(one) > name(other) ? 1 : 0));
}

function disclosureOf({
  tables,
  tablesInCopy,
  ordered,
  less,
  fields,
  settings,
}: {
  readonly tables: CohortTables;
  readonly tablesInCopy: readonly SharedTable[];
  readonly ordered: readonly (CopiedTable & { readonly shared: readonly SharedRow[] })[];
  readonly less: Lessened;
  readonly fields: readonly string[];
  readonly settings: ShareSettings;
}): Disclosure {
  const { closedOn: _, ...told } = settings;
  const injuries = ordered.find(({ table }) => table === "injuries")?.shared ?? [];
  const classes = equivalenceClasses(combinationsOf(injuries, fields));
  const injuriesOfPerson = new Map<string, number>();
  for (const person of personsOfInjuries(tables).values()) {
    injuriesOfPerson.set(person, (injuriesOfPerson.get(person) ?? 0) + 1);
  }
  return {
    format: "pulley-outcomes disclosure 1",
    settings: told,
    rows: tablesInCopy
      .filter(({ rows }) => rows.length > 0)
      .map(({ table, rows }) => ({
        table,
        used: rows.length,
        in_copy: ordered.find((each) => each.table === table)?.rows.length ?? 0,
      })),
    people: injuriesOfPerson.size,
    people_with_several_injuries: [...injuriesOfPerson.values()].filter((n) => n > 1).length,
    people_with_months_kept: settings.dates === "as-they-are" ? 0 : peopleWithMonths(tables),
    columns: tablesInCopy.filter(({ rows }) => rows.length > 0).flatMap((each) => columnsOf(each, settings)),
    combinations: {
      k: settings.k,
      fields,
      before: less.before,
      in_copy: classSizes(classes, settings.k),
      made_coarser: less.madeCoarser,
      cells_left_out: less.cellsLeftOut,
      rare_rows: classes
        .filter(({ people }) => people < settings.k)
        .flatMap(({ rows, people }) => rows.map((place) => ({ row: place + 2, people })))
        .sort((one, other) => one.row - other.row),
    },
    one_outcome: classesOfOneOutcome(injuries, {
      fields,
      returned: returnedBy(tables, settings.milestone),
      k: settings.k,
    }),
    rare_values: rareValues(injuries, {
      columns: countableFields(settings).filter((name) => name !== injuryYear && !fields.includes(name)),
      k: settings.k,
    }),
    in_texts: findingsInTexts(tables),
  };
}

const columnsOf = (
  { table, columns, cells }: SharedTable,
  settings: ShareSettings,
): readonly ColumnDisclosure[] =>
  columns.map((column) => ({
    table,
    column: column.field.name,
    ...sayColumn(column, settings),
    cells_before: cells.get(column.field.name)?.before ?? 0,
    cells_in_copy: cells.get(column.field.name)?.after ?? 0,
  }));

function peopleWithMonths({ injuries }: CohortTables): number {
  const persons = new Set<string>();
  for (const { values } of injuries) {
    const {
      injury_date_precision,
      easy_climbing_precision,
      full_climbing_precision,
      previous_level_precision,
    } = values;
    const precisions = [
      injury_date_precision,
      easy_climbing_precision,
      full_climbing_precision,
      previous_level_precision,
    ];
    if (precisions.includes("month")) persons.add(JSON.stringify([values.site_id, values.person_id]));
  }
  return persons.size;
}
